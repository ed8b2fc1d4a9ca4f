// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan looked up between its pixels. Outside witness: the bicubic interpolation of Ceres Solver.
#include "registration/seen_frame.hpp"

#include <ceres/cubic_interpolation.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::FrameGrid;
using registration::FrameWarp;
using registration::GreyImage;
using registration::half_diagonal;
using registration::seen_through;

TEST(SeenFrame, IsBicubicBetweenTheScansPixelsAsCeresHasIt) {
    std::mt19937 random(3);
    std::uniform_real_distribution<float> any(0, 1);
    GreyImage scan(61, 47);
    for (float& value : scan.values) value = any(random);
    // Turned and larger than the scan, so that all sides of it are met.
    constexpr FrameGrid kGrid{150, 120};
    const double half = half_diagonal(kGrid.width, kGrid.height);
    FrameWarp warp;
    warp.numbers = {0.41 * half, -0.07 * half, 30.3, 0.06 * half, 0.43 * half, 23.1, 0.01, -0.02, 0.003};
    const auto seen = seen_through(warp, kGrid, scan);
    const ceres::Grid2D<float> pixels(scan.values.data(), 0, scan.height, 0, scan.width);
    const ceres::BiCubicInterpolator<ceres::Grid2D<float>> between(pixels);
    int inside = 0, outside = 0;
    for (int y = 0; y < kGrid.height; ++y)
        for (int x = 0; x < kGrid.width; ++x) {
            const auto at = warp.at(kGrid.place(x, y));
            const bool is_inside = at.x > 1 && at.y > 1 && at.x < scan.width - 1 && at.y < scan.height - 1;
            ASSERT_EQ(bool(seen.inside[std::size_t(y * kGrid.width + x)]), is_inside);
            ++(is_inside ? inside : outside);
            if (!is_inside) continue;
            double value = 0, by_row = 0, by_column = 0;
            between.Evaluate(at.y - 0.5, at.x - 0.5, &value, &by_row, &by_column);
            ASSERT_NEAR(double(seen.value.at(x, y)), value, 1e-5);
            ASSERT_NEAR(double(seen.along_x.at(x, y)), by_column, 1e-5);
            ASSERT_NEAR(double(seen.along_y.at(x, y)), by_row, 1e-5);
        }
    EXPECT_GT(inside, 5000);
    EXPECT_GT(outside, 1000);
}

}  // namespace
}  // namespace fogproof::tests
