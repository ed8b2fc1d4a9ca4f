// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Small blocks of a frame, each asked by itself how well the scan shows there what the negative has. A block
// may be lighter or darker and softer or harder than its neighbours, as burning, bleaching and the paper's
// curve make it; only that the print darkens where the negative is thin is taken for granted.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

struct Block {
    int left, top, right, bottom;  ///< pixels of the grid, right and bottom not included
    double likeness = 0;           ///< correlation of scan and negative, -1 to 1; 0 where either is flat
    double gain = 0;               ///< value of the scan per value of the negative
    double negative_mean = 0, scan_mean = 0;
    double noise = 0;     ///< standard deviation of what the negative does not explain
    double texture = 0;   ///< standard deviation of the negative's values
    bool inside = false;  ///< all of it lies on the scan
};

/// Blocks of `side` pixels over the whole frame; a rest at right and bottom is left out.
[[nodiscard]] std::vector<Block> blocks(const GreyImage& negative, const SeenFrame&, int side);
/// One of them, at its place.
void compare(Block&, const GreyImage& negative, const SeenFrame&);

}  // namespace fogproof::registration
