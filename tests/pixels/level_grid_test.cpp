// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Masks as grids of levels: shapes against plane geometry, lines against the grid they lie across.
#include "pixels/level_grid.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr GridSize kGrid{600, 400};
// Of the frame; cells are cut by outlines.
constexpr double kArea = 0.002;
// Levels; 16 bits and floats.
constexpr double kLevel = 1e-4;

MaskShape shape(MaskShape::Kind kind, std::vector<double> at, double soft) {
    return {kind, std::move(at), soft};
}

TEST(ShapeLevels, CoverTheAreaThatGeometrySays) {
    using Kind = MaskShape::Kind;
    for (const double soft : {0.0, 8.0}) {
        EXPECT_NEAR(touched(shape_levels(shape(Kind::top, {30}, soft), kGrid)).mean, 0.30, kArea);
        EXPECT_NEAR(touched(shape_levels(shape(Kind::right, {20}, soft), kGrid)).mean, 0.20, kArea);
    }
    // Half of 60 by 50 percent.
    EXPECT_NEAR(touched(shape_levels(shape(Kind::polygon, {20, 20, 80, 20, 20, 70}, 0), kGrid)).mean, 0.15,
                kArea);
    // An ellipse's area is pi a b.
    EXPECT_NEAR(touched(shape_levels(shape(Kind::oval, {50, 50, 20, 30}, 0), kGrid)).mean,
                std::numbers::pi * 0.2 * 0.3, kArea);
}

TEST(ShapeLevels, AreHalfOnTheOutlineAndFullHalfARimInside) {
    // A rim of 10 % of 600 cells: 30 cells either side of the outline at 200 of 400.
    const LevelGrid grid = shape_levels(shape(MaskShape::Kind::top, {50}, 10), kGrid);
    EXPECT_NEAR(grid.at(0.5, 0.5), 0.5, 0.001);
    EXPECT_NEAR(grid.at(0.5, 169.0 / 400), 1, kLevel);
    EXPECT_NEAR(grid.at(0.5, 231.0 / 400), 0, kLevel);
    // Rising everywhere in between, gently at both ends.
    double last = 2;
    for (int line = 170; line <= 230; ++line) {
        const double level = grid.at(0.5, line / 400.0);
        EXPECT_LT(level, last);
        last = level;
    }
}

TEST(SharpestRim, IsAboutAsWideAsTheRimTold) {
    for (const double soft : {4.0, 10.0, 30.0}) {
        const double rim = sharpest_rim(shape_levels(shape(MaskShape::Kind::left, {50}, soft), kGrid));
        // The middle of the rim is 1.5 times as steep as its mean.
        EXPECT_NEAR(rim, soft / 1.5, 0.1 * soft) << soft;
    }
    EXPECT_LE(sharpest_rim(shape_levels(shape(MaskShape::Kind::left, {50}, 0), kGrid)), 1.1);
}

TEST(LevelLineTest, SaysOfEveryPixelWhatTheGridSaysThere) {
    const LevelGrid grid = shape_levels(shape(MaskShape::Kind::oval, {40, 50, 25, 30}, 12), {97, 65});
    constexpr int kWide = 1230, kHigh = 811;
    for (const int line : {0, 3, 200, 405, 700, 810}) {
        const LevelLine across(grid, line, kHigh);
        std::vector<float> whole(kWide), part(kWide);
        across.levels(0, kWide, kWide, whole.data());
        // In parts as in one piece.
        for (int from = 0; from < kWide; from += 100)
            across.levels(from, std::min(from + 100, kWide), kWide, part.data() + from);
        for (int x = 0; x < kWide; ++x) {
            const double wanted = grid.at((x + 0.5) / kWide, (line + 0.5) / kHigh);
            EXPECT_NEAR(double(whole[std::size_t(x)]), wanted, 1e-5) << x << " " << line;
            EXPECT_NEAR(double(part[std::size_t(x)]), wanted, 1e-5) << x << " " << line;
            const auto reach = across.reach(x, x + 1, kWide);
            if (reach == LevelLine::Reach::none) {
                EXPECT_EQ(whole[std::size_t(x)], 0);
            }
            if (reach == LevelLine::Reach::full) {
                EXPECT_EQ(whole[std::size_t(x)], 1);
            }
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
