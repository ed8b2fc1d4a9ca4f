// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one pass over a scan can tell of it: exact counts of its codes in each place, and sums over cells.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"
#include "pixels/cells.hpp"
#include "pixels/code_source.hpp"
#include "pixels/pace.hpp"

namespace fogproof::pixels {

enum class Counting { off, on };

/// What is to be summed: `values`, one for each entry (code_source.hpp), over the cells of a grid.
struct CellValues {
    std::span<const double> values;
    std::span<const Cell> columns, rows;
};

struct CellSums {
    std::vector<double> sums;  ///< cell by cell, row by row
    Histogram counts;          ///< if asked for, of every pixel, also of those outside of all cells
};

/// Throws Error(Fault::data) when a pixel cannot be read or the file changes meanwhile, and so do the others.
[[nodiscard]] Histogram counted(const CodeSource&, Pace = {});
/// Of one grid; counts only if they are asked for.
[[nodiscard]] CellSums cell_sums(const CodeSource&, std::span<const double> values,
                                 std::span<const Cell> columns, std::span<const Cell> rows, Counting,
                                 Pace = {});

/// Several sums in one pass; each is what it would be alone, to the last bit.
[[nodiscard]] std::vector<std::vector<double>> cell_sums(const CodeSource&, std::span<const CellValues>,
                                                         Pace = {});

/// A pass has met so many pixels: all there are, or reading has gone wrong unnoticed. Throws
/// Error(Fault::data).
void require_all(std::uint64_t pixels, const CodeSource&);

}  // namespace fogproof::pixels
