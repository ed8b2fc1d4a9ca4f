// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Fog of a sheet's edges against the closed form of diffusion.
#include "pixels/sheet_fog.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

const FrameOnSheet kUpright{240, 300, 10, 10, 220, 280, 0};

TEST(SheetFogTest, FallsAsDiffusionFromOneEdgeToATenthAtItsReach) {
    const SheetFog fog({0.2, 20, ""}, std::nullopt, kUpright);
    // Far from corners, erfc of 1.1631 = 0.1000 and of half of it 0.4108 (Abramowitz and Stegun, table 7.1).
    EXPECT_NEAR(fog.level(20, 150), 0.1, 1e-4);
    EXPECT_NEAR(fog.level(10, 150), 0.4108, 1e-4);
    EXPECT_DOUBLE_EQ(fog.level(0, 150), 1);
    EXPECT_NEAR(fog.level(120, 150), 0, 1e-9);
    for (const double d : {3.0, 8.0, 17.0, 40.0}) {
        EXPECT_NEAR(fog.level(d, 150), std::erfc(1.16308715 * d / 20), 1e-7);
        EXPECT_DOUBLE_EQ(fog.level(d, 150), fog.level(240 - d, 150));
        EXPECT_NEAR(fog.level(d, 150), fog.level(120, d), 1e-12);
        EXPECT_NEAR(fog.level(d, 150), fog.level(120, 300 - d), 1e-12);
    }
}

TEST(SheetFogTest, FromTwoEdgesIsWhatEitherLeavesOfTheOther) {
    const SheetFog fog({0.2, 20, ""}, std::nullopt, kUpright);
    EXPECT_NEAR(fog.level(20, 20), 1 - 0.9 * 0.9, 1e-4);
}

TEST(SheetFogTest, OfNoReachIsNoneAnywhere) {
    const SheetFog fog({0.2, 0, ""}, std::nullopt, kUpright);
    for (const double d : {0.0, 1e-9, 1.0}) EXPECT_EQ(fog.level(d, d), 0);
}

TEST(SheetFogTest, OverAPartIsThatOfItsPlaces) {
    const SheetFog fog({0.2, 25, ""}, std::nullopt, kUpright);
    const LevelGrid grid = fog.over({5, 8, 100, 60}, {50, 30});
    for (int y = 0; y < 30; ++y)
        for (int x = 0; x < 50; ++x)
            EXPECT_NEAR(grid.level[std::size_t(y * 50 + x)] / 65535.0, fog.level(6 + 2 * x, 9 + 2 * y), 1e-5);
}

TEST(SheetFogTest, AMapTurnsClockwiseWithItsSheet) {
    // White in the corner at the top left of the sheet as its map shows it.
    LevelGrid map{24, 30, std::vector<std::uint16_t>(720, 0)};
    for (int y = 0; y < 6; ++y)
        for (int x = 0; x < 6; ++x) map.level[std::size_t(24 * y + x)] = 65535;
    const auto at = [&](int turns, double u, double v) {
        FrameOnSheet frame = kUpright;
        frame.quarter_turns = turns;
        if (turns % 2 == 1) std::swap(frame.sheet_width, frame.sheet_height);
        const SheetFog fog({0.2, 15, "map.png"}, map, frame);
        return fog.level(u * frame.sheet_width, v * frame.sheet_height);
    };
    EXPECT_EQ(at(0, 0.05, 0.05), 1);
    EXPECT_EQ(at(1, 0.95, 0.05), 1) << "a quarter clockwise: at the top right";
    EXPECT_EQ(at(2, 0.95, 0.95), 1);
    EXPECT_EQ(at(3, 0.05, 0.95), 1);
    EXPECT_EQ(at(1, 0.05, 0.05), 0);
}

}  // namespace
}  // namespace fogproof::tests
