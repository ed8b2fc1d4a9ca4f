// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The way from frame to scan against its own closed forms: derivatives, the way back, other pixels.
#include "registration/frame_warp.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

const FrameWarp kBentWarp{{310, -42, 455, 37, 296, 380, 0.021, -0.013, 0.008}};
const FramePlace kPlaces[] = {{0, 0}, {0.83, 0.55}, {-0.83, 0.55}, {0.2, -0.5}, {-0.7, -0.1}};

TEST(FrameWarp, WithoutTaperAndLensTurnsStretchesAndShifts) {
    const FrameWarp plain{{0, -300, 400, 300, 0, 350, 0, 0, 0}};
    const auto [x, y] = plain.at({0.5, 0.25});
    EXPECT_DOUBLE_EQ(x, 400 - 300 * 0.25);
    EXPECT_DOUBLE_EQ(y, 350 + 300 * 0.5);
}

TEST(FrameWarp, LensMovesAPlaceAlongItsRadiusByItsSquare) {
    const FrameWarp lens{{100, 0, 0, 0, 100, 0, 0, 0, 0.05}};
    const auto [x, y] = lens.at({0.6, 0.8});  // at distance 1
    EXPECT_DOUBLE_EQ(x, 60 * 1.05);
    EXPECT_DOUBLE_EQ(y, 80 * 1.05);
}

TEST(FrameWarp, DerivativesAgreeWithDifferences) {
    for (const FramePlace place : kPlaces) {
        const auto slopes = kBentWarp.derivatives(place);
        for (std::size_t i = 0; i < FrameWarp::kNumbers; ++i) {
            const double step = 1e-5;
            FrameWarp less = kBentWarp, more = kBentWarp;
            less.numbers[i] -= step, more.numbers[i] += step;
            const ScanPlace from = less.at(place), to = more.at(place);
            // Central differences err with the square of the step, and by rounding of 500 px over the step.
            EXPECT_NEAR(slopes[0][i], (to.x - from.x) / (2 * step), 1e-5) << i;
            EXPECT_NEAR(slopes[1][i], (to.y - from.y) / (2 * step), 1e-5) << i;
        }
    }
}

TEST(FrameWarp, BackGivesThePlaceOfTheFrame) {
    for (const FramePlace place : kPlaces) {
        const FramePlace again = kBentWarp.back(kBentWarp.at(place));
        // Each of six rounds lessens the lens's error by about 3 x 0.008.
        EXPECT_NEAR(again.u, place.u, 1e-9);
        EXPECT_NEAR(again.v, place.v, 1e-9);
    }
}

TEST(FrameWarp, OnPixelsTwiceAsLargeCountsHalfAsMany) {
    for (const FramePlace place : kPlaces) {
        const ScanPlace fine = kBentWarp.at(place), coarse = kBentWarp.on_pixels(2).at(place);
        EXPECT_NEAR(coarse.x, fine.x / 2, 1e-9);
        EXPECT_NEAR(coarse.y, fine.y / 2, 1e-9);
    }
}

TEST(FrameWarp, WithinTheWholeScanEveryPlaceLiesAsFarOnAsThePartBegins) {
    for (const FramePlace place : kPlaces) {
        const ScanPlace part = kBentWarp.at(place), whole = kBentWarp.within_whole(120, 35).at(place);
        EXPECT_NEAR(whole.x, part.x + 120, 1e-9);
        EXPECT_NEAR(whole.y, part.y + 35, 1e-9);
    }
}

TEST(FrameCorners, LieAtDistanceOneClockwiseFromTopLeft) {
    const auto corners = frame_corners(360, 240);
    for (const FramePlace corner : corners) EXPECT_NEAR(corner.squared_radius(), 1, 1e-12);
    EXPECT_LT(corners[0].u, 0);
    EXPECT_LT(corners[0].v, 0);
    EXPECT_GT(corners[1].u, 0);
    EXPECT_LT(corners[1].v, 0);
    EXPECT_GT(corners[2].u, 0);
    EXPECT_GT(corners[2].v, 0);
    EXPECT_LT(corners[3].u, 0);
    EXPECT_GT(corners[3].v, 0);
    EXPECT_NEAR(corners[2].u / corners[2].v, 1.5, 1e-12);
}

}  // namespace
}  // namespace fogproof::tests
