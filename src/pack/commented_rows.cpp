// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/commented_rows.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "pack/csv.hpp"

namespace fogproof::pack {

std::size_t commented_rows(std::string_view text) {
    const auto rows = csv_rows(text);
    if (rows.empty() || rows.front().cells.size() < 2) return 0;
    const auto& head = rows.front().cells;
    const auto density =
        std::ranges::find_if(head,
                             [](const auto& name) { return in_lower_case(trimmed(name)) == "density"; }) -
        head.begin();
    std::size_t count = 0;
    for (const std::string& line : split(text, '\n')) {
        const std::string_view comment = trimmed(line);
        // A blank after it makes it surely a comment.
        if (!comment.starts_with('#') || comment.size() < 2 || comment[1] == ' ') continue;
        const auto row = csv_rows(comment.substr(1));
        if (row.size() == 1 && row.front().cells.size() == head.size() &&
            std::size_t(density) < head.size() && number_in(row.front().cells[std::size_t(density)]))
            ++count;
    }
    return count;
}

}  // namespace fogproof::pack
