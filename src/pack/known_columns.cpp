// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/known_columns.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "pack/csv.hpp"
#include "pack/reading_columns.hpp"

namespace fogproof::pack {
KnownColumns known_columns(std::string_view csv) {
    const std::vector<CsvRow> rows = csv_rows(csv);
    KnownColumns known{std::string(csv), {}};
    if (rows.empty() || !rows.front().fault.empty()) return known;
    std::vector<std::string> names{kStripColumn};
    for (const auto& column : reading_columns()) names.emplace_back(column.name);
    const CsvRow& head = rows.front();
    std::vector<std::string> kept_names;
    std::vector<std::size_t> kept;
    for (std::size_t i = 0; i < head.cells.size(); ++i) {
        const std::string name(trimmed(head.cells[i])), lower = in_lower_case(name);
        const bool is_ours = std::ranges::find(names, lower) != names.end();
        if (!is_ours && !nearest_word(lower, names)) {
            known.left_out.push_back(name.empty() ? "column " + std::to_string(i + 1) : name);
            continue;
        }
        kept.push_back(i);
        kept_names.push_back(is_ours ? lower : name);
    }
    if (std::ranges::find(kept_names, "density") == kept_names.end()) return {std::string(csv), {}};
    known.text.clear();
    int line = 1;
    for (const CsvRow& row : rows) {
        for (; line < row.line; ++line) known.text += '\n';
        std::string cells;
        if (&row == &head)
            for (const std::string& name : kept_names) cells += (cells.empty() ? "" : ",") + csv_cell(name);
        else if (row.cells.size() != head.cells.size())
            return {std::string(csv), {}};  // its faults are told of the file as it is
        else
            for (std::size_t k = 0; k < kept.size(); ++k)
                cells += (k == 0 ? "" : ",") + csv_cell(row.cells[kept[k]]);
        // A line of nothing would be left out; its fault is told of the file as it is.
        if (cells.find_first_not_of(", ") == std::string::npos) return {std::string(csv), {}};
        line += int(std::ranges::count(cells, '\n')) + 1;
        known.text += cells + "\n";
    }
    return known;
}

}  // namespace fogproof::pack
