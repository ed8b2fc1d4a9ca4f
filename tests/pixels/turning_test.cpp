// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/turning.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kRoundingOfPlaces = 1e-9;

TEST(Turning, ClockwiseBringsWhatLiesOnTheRightDown) {
    const Turning quarter(30, 400, 300);
    const PixelPlace middle = quarter.place_turned({200, 150}), right = quarter.place_turned({300, 150});
    EXPECT_NEAR(middle.x, quarter.width() / 2.0, kRoundingOfPlaces);
    EXPECT_NEAR(middle.y, quarter.height() / 2.0, kRoundingOfPlaces);
    EXPECT_NEAR(right.x - middle.x, 100 * std::sqrt(3.0) / 2, kRoundingOfPlaces);
    EXPECT_NEAR(right.y - middle.y, 50, kRoundingOfPlaces);
}

TEST(Turning, BackIsTheOtherWay) {
    for (const double degrees : {-4.0, 0.5, 12.0}) {
        const Turning turning(degrees, 640, 481);
        for (const PixelPlace place : {PixelPlace{0, 0}, {640, 481}, {17.25, 300.5}}) {
            const PixelPlace back = turning.place_lying(turning.place_turned(place));
            EXPECT_NEAR(back.x, place.x, kRoundingOfPlaces);
            EXPECT_NEAR(back.y, place.y, kRoundingOfPlaces);
        }
        const Region region{100, 50, 31, 20}, back = turning.lying(turning.turned(region));
        EXPECT_NEAR(back.left, region.left, 1);
        EXPECT_NEAR(back.top, region.top, 1);
        EXPECT_EQ(back.width, region.width);
        EXPECT_EQ(back.height, region.height);
    }
}

TEST(Turning, TheSheetHoldsTheScanAndIsNoLarger) {
    for (const double degrees : {-5.0, -0.2, 0.0, 3.0}) {
        const Turning turning(degrees, 900, 600);
        double least_x = 1e9, most_x = -1e9, least_y = 1e9, most_y = -1e9;
        for (const PixelPlace corner : {PixelPlace{0, 0}, {900, 0}, {0, 600}, {900, 600}}) {
            const auto [x, y] = turning.place_turned(corner);
            least_x = std::min(least_x, x), most_x = std::max(most_x, x);
            least_y = std::min(least_y, y), most_y = std::max(most_y, y);
        }
        EXPECT_GE(least_x, -1e-6);
        EXPECT_GE(least_y, -1e-6);
        EXPECT_LE(least_x + least_y, 1);
        EXPECT_LE(most_x, turning.width() + 1e-6);
        EXPECT_LE(most_y, turning.height() + 1e-6);
    }
    EXPECT_EQ(Turning(0, 900, 600).width(), 900);
    EXPECT_EQ(Turning(0, 900, 600).height(), 600);
}

TEST(Turning, WithinTheScanNothingIsFromBeyondItAndLittleIsLost) {
    for (const double degrees : {-5.0, -1.0, 0.3, 4.0}) {
        const Turning turning(degrees, 900, 600);
        const Region all{0, 0, turning.width(), turning.height()}, kept = turning.within_scan(all);
        for (const int x : {kept.left, kept.left + kept.width})
            for (const int y : {kept.top, kept.top + kept.height}) {
                const PixelPlace corner = turning.place_lying({double(x), double(y)});
                EXPECT_GE(corner.x, -1e-3);
                EXPECT_GE(corner.y, -1e-3);
                EXPECT_LE(corner.x, 900 + 1e-3);
                EXPECT_LE(corner.y, 600 + 1e-3);
            }
        // Each side is drawn in where the other one runs, to first order in the angle, twice.
        const double tan = std::tan(std::abs(degrees) * 3.14159265 / 180);
        EXPECT_GE(kept.width, 900 - 600 * tan - 900 * 2 * tan * tan - 2);
        EXPECT_GE(kept.height, 600 - 900 * tan - 600 * 2 * tan * tan - 2);
        // What lies well inside stays as it is.
        const Region inside{kept.left + 1, kept.top + 1, kept.width - 2, kept.height - 2},
            same = turning.within_scan(inside);
        EXPECT_EQ(same.left, inside.left);
        EXPECT_EQ(same.top, inside.top);
        EXPECT_EQ(same.width, inside.width);
        EXPECT_EQ(same.height, inside.height);
    }
    EXPECT_EQ(Turning(3, 900, 600).within_scan({0, 0, 3, 3}).width, 0);
}

}  // namespace
}  // namespace fogproof::tests
