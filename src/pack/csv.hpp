// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Comma-separated values after RFC 4180: cells in quotes may hold commas, line breaks and doubled quotes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pack {

struct CsvRow {
    int line;  ///< on which it starts
    std::vector<std::string> cells;
    std::string fault;  ///< empty where the row obeys the format
};

/// Rows without lines that start with '#' and without lines of empty cells alone. A last column that has
/// neither a name nor a value is left out.
[[nodiscard]] std::vector<CsvRow> csv_rows(std::string_view text);
/// A cell, in quotes where it must be.
[[nodiscard]] std::string csv_cell(const std::string& text);

}  // namespace fogproof::pack
