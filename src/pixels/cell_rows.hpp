// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan met row of cells by row of cells, for what needs all pixels of a cell at once and not their sum.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/cells.hpp"
#include "pixels/code_source.hpp"

namespace fogproof::pixels {

/// The lines that fall into a row of cells, pixel by pixel the value of its entry, and how much of each does.
struct CellRow {
    std::vector<const std::uint16_t*> lines;
    std::vector<double> shares;
};

/// Calls act(number of the row, row) once for every row, from several workers at once. `values` has one for
/// each entry. Throws Error(Fault::data) when a pixel cannot be read.
void for_each_cell_row(const CodeSource&, std::span<const std::uint16_t> values, std::span<const Cell> rows,
                       const std::function<void(std::size_t, const CellRow&)>& act);

}  // namespace fogproof::pixels
