// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one block of a frame says of where it lies on the scan: which way it would go to look more like the
// negative, and how firmly it says so in each direction.
#pragma once

#include <Eigen/Core>

#include "fogproof/rooms.hpp"
#include "registration/block_grid.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

struct BlockPull {
    Eigen::Matrix2d slopes;  ///< products of slopes along the scan's x and y, summed over the block
    Eigen::Vector2d pull;    ///< what the negative leaves unexplained times the slopes
    /// How firmly it is held: the same products, of the scan's slopes and the negative's. A scan's noise has
    /// slopes of its own, which hold a block nowhere although their squares say so; times those of another
    /// picture with other noise they come to nothing.
    Eigen::Matrix2d hold;
    /// How far to trust a block whose own best place may lie elsewhere (dust, a print's edge, another
    /// picture), over its variance. `noise`: standard deviation of what the negative leaves unexplained.
    [[nodiscard]] double weight(double noise) const;
};

/// Weight of an almost even block, whose own best place is chance.
[[nodiscard]] double even_weight(double noise);

/// By the scan's slopes, whose squares are also taken for the hold: for blocks whose texture stands out of
/// all noise, as long as they may lie some pixels off. Too firm a hold only makes a step short.
[[nodiscard]] BlockPull pull_of(const Block&, const GreyImage& negative, const SeenFrame&);
/// By the negative's slopes, with the hold as it is: for almost even blocks. Not for blocks at the frame's
/// rim.
[[nodiscard]] BlockPull even_pull_of(const Block&, const GreyImage& negative, const SeenFrame&,
                                     const FrameWarp&, const FrameGrid&);

}  // namespace fogproof::registration
