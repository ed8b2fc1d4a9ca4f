// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A warp from matches at known places, and how surely it holds the corners. Outside source: none but least
// squares; a mean of n is n times as sure.
#include "registration/warp_equations.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::corner_doubt;
using registration::farthest_corner_move;
using registration::FrameGrid;
using registration::FrameWarp;
using registration::half_diagonal;
using registration::Match;
using registration::WarpEquations;
using registration::worst_doubt;

constexpr FrameGrid kGrid{600, 400};

FrameWarp level_warp(double right, double turn) {
    const double half = half_diagonal(kGrid.width, kGrid.height), c = half * std::cos(turn),
                 s = half * std::sin(turn);
    FrameWarp warp;
    warp.numbers = {c, -s, 300 + right, s, c, 200, 0, 0, 0};
    return warp;
}

std::vector<Match> matches_of(const FrameWarp& warp, int along, int times = 1) {
    std::vector<Match> matches;
    for (int i = 0; i < times; ++i)
        for (int y = 0; y <= along; ++y)
            for (int x = 0; x <= along; ++x) {
                const auto place = kGrid.place_of(600.0 * x / along, 400.0 * y / along);
                matches.push_back({place, warp.at(place), 0, 1, 0.5});
            }
    return matches;
}

TEST(WarpEquations, MatchesBringAWarpToTheirPlace) {
    const FrameWarp wanted = level_warp(3, 0.01);
    const auto matches = matches_of(wanted, 4);
    FrameWarp warp = level_warp(0, 0);
    for (int round = 0; round < 8; ++round) {
        const auto solved = WarpEquations(warp, {matches, 1.5}, 1).solved();
        ASSERT_TRUE(solved);
        warp = solved->warp;
    }
    EXPECT_LT(farthest_corner_move(warp, wanted, kGrid), 0.02);
}

TEST(WarpEquations, FourTimesAsManyMatchesAreTwiceAsSure) {
    const FrameWarp warp = level_warp(0, 0);
    const auto doubt = [&](int times) {
        const auto matches = matches_of(warp, 12, times);
        return corner_doubt(*WarpEquations(warp, {matches, 1.5}, 1).solved(), kGrid);
    };
    EXPECT_NEAR(doubt(1) / doubt(4), 2, 0.1);
}

TEST(WarpEquations, ScansOfLargerPixelsDoubtByTheirOwn) {
    const FrameWarp warp = level_warp(0, 0);
    const auto matches = matches_of(warp, 12);
    const double fine = corner_doubt(*WarpEquations(warp, {matches, 1.5}, 1).solved(), kGrid),
                 coarse = corner_doubt(*WarpEquations(warp.on_pixels(2), {matches, 1.5}, 2).solved(), kGrid);
    EXPECT_NEAR(fine / coarse, 2, 0.1);
}

TEST(WarpEquations, PlacesNearTheMatchesAreSurerThanFarCorners) {
    // What holds the left third says less of the right corners.
    const FrameWarp warp = level_warp(0, 0);
    auto matches = matches_of(warp, 12);
    std::erase_if(matches, [](const Match& match) { return match.frame.u > kGrid.place_of(200, 0).u; });
    const auto solved = WarpEquations(warp, {matches, 1.5}, 1).solved();
    ASSERT_TRUE(solved);
    const std::array near{kGrid.place_of(0, 0), kGrid.place_of(200, 0), kGrid.place_of(200, 400),
                          kGrid.place_of(0, 400)};
    EXPECT_LT(3 * worst_doubt(*solved, near), corner_doubt(*solved, kGrid));
}

TEST(WarpEquations, BlocksThatContradictThemselvesAreNoAnswer) {
    WarpEquations sums(level_warp(0, 0), {{}, 1.5}, 1);
    sums.add({0, 0}, {-Eigen::Matrix2d::Identity(), {1, 0}, -Eigen::Matrix2d::Identity()}, 1);
    EXPECT_FALSE(sums.solved());
}

}  // namespace
}  // namespace fogproof::tests
