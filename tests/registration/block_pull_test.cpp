// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a block says of its place, on stripes that are drawn: they hold it across themselves, and noise holds
// it nowhere. Outside source: none but arithmetic; independent noise has no mean product.
#include "registration/block_pull.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::Block;
using registration::BlockPull;
using registration::blocks;
using registration::even_pull_of;
using registration::FrameGrid;
using registration::FrameWarp;
using registration::GreyImage;
using registration::half_diagonal;
using registration::pull_of;
using registration::seen_through;
using registration::SeenFrame;

constexpr int kAcross = 240, kDeep = 180, kBlockSide = 12;
constexpr double kNoise = 0.004;

// The scan has the frame's own pixels, moved by so much to the right.
FrameWarp displaced(double right) {
    const double half = half_diagonal(kAcross, kDeep);
    FrameWarp warp;
    warp.numbers = {half, 0, kAcross / 2.0 + right, 0, half, kDeep / 2.0, 0, 0, 0};
    return warp;
}

GreyImage stripes(double right, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> noise(0, kNoise);
    GreyImage image(kAcross, kDeep);
    for (int y = 0; y < kDeep; ++y)
        for (int x = 0; x < kAcross; ++x)
            image.at(x, y) = float(0.5 + 0.02 * std::sin((x + 0.5 - right) / 2.5) + noise(random));
    return image;
}

struct Sums {
    Eigen::Matrix2d slopes = Eigen::Matrix2d::Zero(), hold = slopes;
    Eigen::Vector2d pull = Eigen::Vector2d::Zero();
};

template <class Pull>
Sums over_blocks(const GreyImage& negative, const SeenFrame& seen, const Pull& pull) {
    Sums sums;
    for (const Block& block : blocks(negative, seen, kBlockSide)) {
        if (!block.inside || block.left == 0 || block.top == 0 || block.right == kAcross ||
            block.bottom == kDeep)
            continue;
        const BlockPull said = pull(block);
        sums.slopes += said.slopes, sums.hold += said.hold, sums.pull += said.pull;
    }
    return sums;
}

TEST(BlockPull, NoiseHoldsNothingAlongStripes) {
    const FrameGrid grid{kAcross, kDeep};
    const GreyImage negative = stripes(0, 1), scan = stripes(0, 2);
    const SeenFrame seen = seen_through(displaced(0), grid, scan);
    const Sums even = over_blocks(negative, seen, [&](const Block& block) {
        return even_pull_of(block, negative, seen, displaced(0), grid);
    });
    const Sums plain =
        over_blocks(negative, seen, [&](const Block& block) { return pull_of(block, negative, seen); });
    // The scan's squares say so along the stripes, too.
    EXPECT_GT(plain.slopes(1, 1), 0.05 * plain.slopes(0, 0));
    EXPECT_LT(std::abs(even.hold(1, 1)), 0.005 * even.hold(0, 0));
    EXPECT_GT(even.hold(0, 0), 0.7 * plain.slopes(0, 0));
}

TEST(BlockPull, OneStepGoesBackToThePlace) {
    constexpr double kOff = 0.4;
    const FrameGrid grid{kAcross, kDeep};
    const GreyImage negative = stripes(0, 1), scan = stripes(kOff, 2);
    const SeenFrame seen = seen_through(displaced(0), grid, scan);
    const Sums even = over_blocks(negative, seen, [&](const Block& block) {
        return even_pull_of(block, negative, seen, displaced(0), grid);
    });
    const Sums plain =
        over_blocks(negative, seen, [&](const Block& block) { return pull_of(block, negative, seen); });
    EXPECT_NEAR(-even.pull.x() / even.hold(0, 0), kOff, 0.05);
    // Short of it, as the scan's noise counts as a hold.
    EXPECT_LT(-plain.pull.x() / plain.slopes(0, 0), 0.9 * kOff);
    EXPECT_GT(-plain.pull.x() / plain.slopes(0, 0), 0.5 * kOff);
}

TEST(BlockPull, ABlockThatLiesElsewhereIsTrustedLess) {
    const BlockPull still{10 * Eigen::Matrix2d::Identity(), {0, 0}, 10 * Eigen::Matrix2d::Identity()};
    BlockPull pulled = still;
    pulled.pull = {10, 0};  // one pixel
    EXPECT_DOUBLE_EQ(still.weight(0.01), registration::even_weight(0.01));
    EXPECT_LT(pulled.weight(0.01), 0.01 * still.weight(0.01));
    EXPECT_GT(pulled.weight(1), 0.95 * still.weight(1));
}

}  // namespace
}  // namespace fogproof::tests
