// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How the pixels of a line fall into the fewer cells of a shorter one.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// One cell: pixels [begin, end) whole, and a share of one pixel on either side of them.
struct Cell {
    int begin = 0, end = 0;
    int lead = 0, tail = 0;
    double lead_share = 0, tail_share = 0;
};

/// Cells of equal length, pixels cut at exact fractions; at most as many cells as pixels.
[[nodiscard]] std::vector<Cell> fractional_cells(int pixels, int cells);
/// Cells of `factor` whole pixels. What is left over counts as a cell when it is at least half of one, its
/// last pixel standing for what is missing.
[[nodiscard]] std::vector<Cell> whole_cells(int pixels, int factor);

}  // namespace fogproof::pixels
