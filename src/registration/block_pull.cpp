// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/block_pull.hpp"

#include <Eigen/LU>

namespace fogproof::registration {
namespace {

// Neighbouring pixels err together: so many count as one.
constexpr double kAlikePixels = 60;
// A block whose own best place is so many squared deviations away counts a quarter. Judgement.
constexpr double kFarBlock = 9;
// Pixels by which a block without a texture in some direction is taken to lie off there: its inverse square.
constexpr double kStill = 1;

// From slopes along the grid's pixels to slopes along the scan's.
Eigen::Matrix2d to_scan(const Block& block, const FrameWarp& warp, const FrameGrid& grid) {
    const ScanPlace at = warp.at(grid.place(block.left, block.top)),
                    right = warp.at(grid.place(block.right, block.top)),
                    below = warp.at(grid.place(block.left, block.bottom));
    Eigen::Matrix2d pixel;
    pixel << right.x - at.x, right.y - at.y, below.x - at.x, below.y - at.y;
    return (pixel / (block.right - block.left)).inverse();
}

}  // namespace

double BlockPull::weight(double noise) const {
    const double variance = noise * noise;
    const Eigen::Matrix2d held = slopes + kStill * variance * Eigen::Matrix2d::Identity();
    const double squared = pull.dot(held.inverse() * pull) / (variance * kAlikePixels);
    return even_weight(noise) / ((1 + squared / kFarBlock) * (1 + squared / kFarBlock));
}

double even_weight(double noise) {
    return 1 / (noise * noise * kAlikePixels);
}

BlockPull pull_of(const Block& block, const GreyImage& negative, const SeenFrame& seen) {
    BlockPull sums{Eigen::Matrix2d::Zero(), Eigen::Vector2d::Zero(), {}};
    Eigen::Vector2d mean = Eigen::Vector2d::Zero();
    double count = 0;
    for (int y = block.top; y < block.bottom; ++y)
        for (int x = block.left; x < block.right; ++x) {
            const Eigen::Vector2d slope(double(seen.along_x.at(x, y)), double(seen.along_y.at(x, y)));
            const double miss = double(seen.value.at(x, y)) - block.scan_mean -
                                block.gain * (double(negative.at(x, y)) - block.negative_mean);
            sums.slopes += slope * slope.transpose(), sums.pull += miss * slope, mean += slope, count += 1;
        }
    sums.slopes -= mean * mean.transpose() / count;
    sums.hold = sums.slopes;
    return sums;
}

BlockPull even_pull_of(const Block& block, const GreyImage& negative, const SeenFrame& seen,
                       const FrameWarp& warp, const FrameGrid& grid) {
    const Eigen::Matrix2d turned = to_scan(block, warp, grid);
    Eigen::Matrix2d products = Eigen::Matrix2d::Zero();
    Eigen::Vector2d pull = Eigen::Vector2d::Zero(), of_scan = pull, of_negative = pull, scan_along = pull,
                    negative_along = pull;
    double count = 0, squares = 0;
    for (int y = block.top; y < block.bottom; ++y)
        for (int x = block.left; x < block.right; ++x) {
            const double value = double(negative.at(x, y)) - block.negative_mean;
            const double miss = double(seen.value.at(x, y)) - block.scan_mean - block.gain * value;
            const Eigen::Vector2d a(double(seen.along_x.at(x, y)), double(seen.along_y.at(x, y))),
                b = turned * Eigen::Vector2d(double(negative.at(x + 1, y) - negative.at(x - 1, y)) / 2,
                                             double(negative.at(x, y + 1) - negative.at(x, y - 1)) / 2);
            products += b * a.transpose(), pull += miss * b;
            of_scan += a, of_negative += b, count += 1;
            scan_along += value * a, negative_along += value * b, squares += value * value;
        }
    // Its lightness and its contrast are the block's own, so what they could explain says nothing of places.
    products -= of_negative * of_scan.transpose() / count;
    if (squares > 0) products -= negative_along * scan_along.transpose() / squares;
    const Eigen::Matrix2d hold = (products + products.transpose()) / 2;
    return {hold, pull, hold};
}

}  // namespace fogproof::registration
