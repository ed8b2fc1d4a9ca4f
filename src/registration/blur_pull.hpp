// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How soft a print is, asked of its blocks: the enlarger blurs light before the paper's curve, the scanner
// after it. A hard edge that is blurred before a curve lies elsewhere after it, and would take the frame's
// corners along by pixels; so both blurs are sought together with the warp.
#pragma once

#include <Eigen/Core>
#include <array>

#include "fogproof/rooms.hpp"
#include "registration/block_grid.hpp"
#include "registration/grey_image.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

/// Standard deviation of a unit of blur, in pixels of the negative.
inline constexpr double kBlurUnit = 0.7;
/// Squared blurs in squared units: by the enlarger, by the scanner. Less than 0 where the print is sharper
/// than the negative's own scan, or than was thought.
inline constexpr int kBlurs = 2;
using Blurs = Eigen::Matrix<double, kBlurs, 1>;
/// What a unit of each changes about the negative as the print shows it.
using BlurChanges = std::array<GreyImage, kBlurs>;

/// Zero to begin with, and for a block that is not asked.
struct BlurPull {
    using Across = Eigen::Matrix<double, 2, kBlurs>;
    using Squares = Eigen::Matrix<double, kBlurs, kBlurs>;
    Across across = Across::Zero();     ///< products of the scan's slopes and the changes
    Squares squares = Squares::Zero();  ///< products of the changes
    Blurs pull = Blurs::Zero();         ///< what the negative leaves unexplained times the changes
};

/// Without what the block's own lightness and contrast explain.
[[nodiscard]] BlurPull blur_pull_of(const Block&, const GreyImage& negative, const SeenFrame&,
                                    const BlurChanges&);
[[nodiscard]] GreyImage with_blurs(const GreyImage& negative, const BlurChanges&, const Blurs&);

}  // namespace fogproof::registration
