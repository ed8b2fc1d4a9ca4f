// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/read_instrument.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/commented_rows.hpp"
#include "pack/known_columns.hpp"
#include "pack/reading_columns.hpp"
#include "reading/cgats.hpp"
#include "report/reading_columns_words.hpp"
#include "system/picture_kind.hpp"
#include "system/text_file.hpp"

namespace fogproof::cli {
namespace {

constexpr std::size_t kLargestText = 64u << 20;
const std::string kReadable =
    std::string("a scan (") + kPictureKinds + "), a CGATS file, or CSV with a column density";

// CSV with a column density, however that is written.
bool is_table(const std::string& text) {
    return text.find('\0') == std::string::npos && in_lower_case(text).find("density") != std::string::npos;
}

// Columns of labels that are told of all rows and that no row took.
std::vector<std::string> untaken(const std::vector<Reading>& as_told, const std::vector<Reading>& rows,
                                 const Reading& common, bool strip_is_typed) {
    std::vector<std::string> names;
    if (strip_is_typed && std::ranges::none_of(as_told, &std::string::empty, &Reading::strip))
        names.emplace_back(kStripColumn);
    for (const ReadingColumn& column : reading_columns()) {
        const auto differs = [&column](const Reading& a, const Reading& b) {
            return column.text ? a.*column.text != b.*column.text : column.get(a) != column.get(b);
        };
        if (fills(common, column) && std::ranges::equal(as_told, rows, std::not_fn(differs)))
            names.emplace_back(column.name);
    }
    return names;
}

}  // namespace

InstrumentFile instrument_file(const std::string& path) {
    InstrumentFile file;
    const std::string text = read_text(path, kLargestText, kReadable);
    if (is_cgats(text)) {
        auto read = cgats_readings(text, path);
        for (const auto& sample : read.rows) file.densities.push_back(sample.density.value);
        file.notes = std::move(read.notes);
    } else if (is_table(text)) {
        KnownColumns known = known_columns(text);
        if (!known.left_out.empty())
            file.notes.push_back("columns that readings do not have are left out: " + listed(known.left_out));
        if (const std::size_t count = commented_rows(text)) file.notes.push_back(commented_rows_words(count));
        static_cast<void>(parse_readings(known.text, path));
        file.table = std::move(known.text);
    } else {
        throw Error(Fault::data, path, "holds no readings", kReadable);
    }
    return file;
}

InstrumentRows instrument_rows(const InstrumentFile& file, const StripLabels& labels, bool strip_is_typed,
                               const std::string& path) {
    InstrumentRows read;
    if (!file.table.empty()) {
        read.rows = parse_readings(file.table, path, labels.common);
        const auto idle = untaken(parse_readings(file.table, path), read.rows, labels.common, strip_is_typed);
        if (!idle.empty())
            read.notes.push_back("every row tells its own " + listed(idle) + ", which counts before options");
    }
    for (const double density : file.densities) {
        read.rows.push_back(labels.common);
        read.rows.back().density = density;
    }
    read.rows = with_steps(std::move(read.rows), labels, path);
    return read;
}

}  // namespace fogproof::cli
