// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one pass over a scan can tell of it: exact counts of its codes, and sums over cells.
#pragma once

#include <span>
#include <vector>

#include "fogproof/negative/tones.hpp"
#include "fogproof/strips/cells.hpp"
#include "fogproof/strips/code_lines.hpp"

namespace fogproof {

struct CellSums {
    std::vector<double> sums;  ///< cell by cell, row by row
    Histogram counts;          ///< of every pixel, also of those outside of all cells
};

// All of them: `threads` 0 is one for each processor; the result is the same to the last bit for any number.
// Error(Fault::data) when a pixel cannot be read.

[[nodiscard]] Histogram counted_lines(const CodeLines&, unsigned threads = 0);
/// Sums of `values` (one for each code) over the cells.
[[nodiscard]] CellSums cell_sums(const CodeLines&, std::span<const double> values,
                                 std::span<const Cell> columns, std::span<const Cell> rows,
                                 unsigned threads = 0);

}  // namespace fogproof
