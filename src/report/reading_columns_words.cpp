// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/reading_columns_words.hpp"

#include <string_view>
#include <utility>

#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "pack/reading_columns.hpp"

namespace fogproof::report {

std::vector<ColumnWords> reading_columns_words() {
    std::vector<ColumnWords> words{{pack::kStripColumn, pack::kStripMeaning}};
    for (const pack::ReadingColumn& column : pack::reading_columns()) {
        std::string meaning = column.meaning;
        if (column.text == nullptr) {
            const std::string unit = column.unit;
            const bool is_grade = std::string_view(column.name) == "filter";
            meaning += " (" + (is_grade ? pack::grade_name(column.minimum) : decimal(column.minimum, 2)) +
                       " to " + decimal(column.maximum, 2) + (unit.empty() ? "" : " " + unit) + ")";
        }
        words.push_back({column.name, std::move(meaning)});
    }
    return words;
}

std::string commented_rows_words(std::size_t count) {
    const bool is_one = count == 1;
    return std::to_string(count) + (is_one ? " line begins" : " lines begin") +
           " with #, which makes a comment of " +
           (is_one ? "what looks like a reading" : "what look like readings") +
           "; a strip whose name begins so stands in quotes, \"#1\"";
}

}  // namespace fogproof::report
