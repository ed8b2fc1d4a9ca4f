// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print with local work made small by what its pixels are drawn as.
#pragma once

#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/cells.hpp"
#include "pixels/code_source.hpp"
#include "pixels/local_painter.hpp"

namespace fogproof::pixels {

/// Sums over cells, row by row, of the three samples of every pixel, for a painter of three of 16 bits.
/// Throws Error(Fault::data) when a pixel cannot be read.
[[nodiscard]] std::vector<double> painted_sums(const CodeSource&, const LocalPainter&,
                                               std::span<const Cell> columns, std::span<const Cell> rows);

}  // namespace fogproof::pixels
