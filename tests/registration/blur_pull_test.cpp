// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How soft a print is against its negative, asked of blocks that are drawn with a known blur. Outside source:
// none but arithmetic; variances of blurs one after the other add up.
#include "registration/blur_pull.hpp"

#include <gtest/gtest.h>

#include <Eigen/LU>

#include <cmath>
#include <random>

#include "registration/warp_equations.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::Block;
using registration::BlockPull;
using registration::blur_pull_of;
using registration::BlurChanges;
using registration::BlurPull;
using registration::blurred;
using registration::Blurs;
using registration::FrameGrid;
using registration::FrameWarp;
using registration::GreyImage;
using registration::half_diagonal;
using registration::kBlurUnit;
using registration::seen_through;
using registration::WarpEquations;
using registration::with_blurs;

constexpr int kPixels = 160, kTile = 16;

FrameWarp in_place() {
    const double half = half_diagonal(kPixels, kPixels);
    FrameWarp warp;
    warp.numbers = {half, 0, kPixels / 2.0, 0, half, kPixels / 2.0, 0, 0, 0};
    return warp;
}

GreyImage mottled() {
    std::mt19937 random(5);
    std::normal_distribution<float> value(0.5f, 0.1f);
    GreyImage image(kPixels, kPixels);
    for (float& each : image.values) each = value(random);
    return blurred(image, 2);
}

GreyImage difference(GreyImage after, const GreyImage& before) {
    for (std::size_t i = 0; i < after.values.size(); ++i) after.values[i] -= before.values[i];
    return after;
}

// The second unit darkens to the right, which is no blur but cannot be taken for one either.
BlurChanges changes_of(const GreyImage& negative) {
    BlurChanges changes{difference(blurred(negative, kBlurUnit), negative), GreyImage(kPixels, kPixels)};
    for (int y = 0; y < kPixels; ++y)
        for (int x = 0; x < kPixels; ++x) changes[1].at(x, y) = 0.001f * float(x % kTile);
    return changes;
}

Blurs found_on(const GreyImage& negative, const GreyImage& scan) {
    const FrameGrid grid{kPixels, kPixels};
    const auto seen = seen_through(in_place(), grid, scan);
    const BlurChanges changes = changes_of(negative);
    Eigen::Matrix2d squares = Eigen::Matrix2d::Zero();
    Blurs pull = Blurs::Zero();
    for (Block block : blocks(negative, seen, kTile)) {
        if (!block.inside) continue;
        const BlurPull said = blur_pull_of(block, negative, seen, changes);
        squares += said.squares, pull += said.pull;
    }
    return squares.inverse() * pull;
}

TEST(BlurPull, IsTheBlurThatThePrintHas) {
    // A third less light and four fifths of the contrast are each block's own.
    const GreyImage negative = mottled();
    GreyImage scan = with_blurs(negative, changes_of(negative), {0.6, 0.3});
    for (float& value : scan.values) value = 0.8f * value - 0.1f;
    const Blurs found = found_on(negative, scan);
    EXPECT_NEAR(found[0], 0.6, 0.06);
    EXPECT_NEAR(found[1], 0.3, 0.03);
}

TEST(BlurPull, OfTwoBlursIsTheSumOfTheirSquares) {
    const GreyImage negative = mottled();
    const double half = kBlurUnit * std::sqrt(0.5);
    const Blurs once = found_on(negative, blurred(negative, half)),
                twice = found_on(negative, blurred(blurred(negative, half), half));
    // Sampled at whole pixels so narrow a blur is a little narrower still.
    EXPECT_NEAR(once[0], 0.5, 0.06);
    EXPECT_NEAR(twice[0], 2 * once[0], 0.03);
    EXPECT_NEAR(twice[1], 0, 0.05);
}

TEST(BlurPull, AStepThatABlurExplainsIsNotTaken) {
    // Blocks all over the frame that lie off by some pixels and are softer than thought, both along x.
    const Eigen::Matrix2d slopes = 1e6 * Eigen::Matrix2d::Identity();
    const Eigen::Vector2d off(0.3, -0.1);
    const Blurs softer(0.5, -0.2);
    BlurPull blur{Eigen::Matrix2d::Zero(), 1e6 * Eigen::Matrix2d::Identity(), Blurs::Zero()};
    blur.across << -4e5, 2e5, 0, 3e5;
    // What is left of a scan that lies off by `off` and is softer by `softer`.
    const BlockPull pull{slopes, slopes * off + blur.across * softer, slopes};
    blur.pull = blur.across.transpose() * off + blur.squares * softer;
    const FrameWarp warp = in_place();
    WarpEquations sums(warp, {{}, 1}, 1);
    for (const double u : {-0.6, 0.0, 0.6})
        for (const double v : {-0.6, 0.0, 0.6}) sums.add({u, v}, pull, blur, 1);
    const auto solved = sums.solved();
    ASSERT_TRUE(solved);
    EXPECT_NEAR(solved->blurs[0], softer[0], 0.001);
    EXPECT_NEAR(solved->blurs[1], softer[1], 0.001);
    EXPECT_NEAR(solved->warp.at({0, 0}).x, warp.at({0, 0}).x - off.x(), 0.001);
    EXPECT_NEAR(solved->warp.at({0, 0}).y, warp.at({0, 0}).y - off.y(), 0.001);
}

}  // namespace
}  // namespace fogproof::tests
