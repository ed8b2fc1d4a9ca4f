// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which blocks of a scan are surely its lid. White paper may be so close to a white lid that its density
// alone does not tell it from the lid under uneven light: but paper ends in an edge, and the lid reaches the
// scan's rim.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::reading {

/// `apart`: how far each block is denser than the lid is thought to be there, row by row. For each block,
/// whether it lies on ground without edges that reaches the rim, and lies within `tolerance` as its ground
/// does within half of that.
[[nodiscard]] std::vector<char> lid_ground(const std::vector<double>& apart, int width, int height,
                                           double tolerance);

}  // namespace fogproof::reading
