// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Noise of a negative's scan, drawn by hand where there is clear film to show it. Closed arithmetic; no
// published source.
#include "registration/scan_noise.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/drawn_exposure.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::scan_noise;

TEST(ScanNoise, IsTakenFromTheClearFilm) {
    const NegativeView view = scanned(exposure(1), 0.004);
    const auto noise = scan_noise(view.at(1000), view);
    ASSERT_TRUE(noise);
    // Light of 1 and noise of 0.004: 0.004 / ln 10 in density.
    EXPECT_NEAR(std::sqrt(noise->at(0)), 0.004 / std::log(10.0), 0.0001);
    // The same noise of a tenth of the light is ten times that.
    EXPECT_NEAR(std::sqrt(noise->at(1)), 0.04 / std::log(10.0), 0.001);
}

TEST(ScanNoise, OfAScanThatIsCutToTheFrameIsAssumed) {
    NegativeView view = scanned_without_clear_film(exposure(1), 0);
    const auto noise = scan_noise(view.at(1000), view);
    ASSERT_TRUE(noise);
    // Ten thousand electrons are counted to one in a hundred, a thousand of them to the root of ten in a
    // hundred.
    EXPECT_NEAR(std::sqrt(noise->at(0)), 0.01 / std::log(10.0), 1e-9);
    EXPECT_NEAR(std::sqrt(noise->at(1)), std::sqrt(10.0) * 0.01 / std::log(10.0), 1e-9);
    // The mean of four by four pixels is four times as good.
    view.scan_pixels *= 4;
    EXPECT_NEAR(std::sqrt(scan_noise(view.at(1000), view)->at(0)), 0.0025 / std::log(10.0), 1e-9);
}

TEST(ScanNoise, IsNotKnownOfEightBitsWithoutClearFilm) {
    NegativeView view = scanned_without_clear_film(exposure(1), 0.004);
    view.is_coarsely_coded = true;
    EXPECT_FALSE(scan_noise(view.at(1000), view));
    NegativeView whole = scanned(exposure(1), 0.004);
    whole.is_coarsely_coded = true;
    EXPECT_TRUE(scan_noise(whole.at(1000), whole)) << "clear film shows it whatever the codes are";
}

TEST(ScanNoise, IsNotKnownWhereClearFilmIsPerfectlyEven) {
    const NegativeView view = scanned(exposure(1), 0);
    EXPECT_FALSE(scan_noise(view.at(1000), view));
}

}  // namespace
}  // namespace fogproof::tests
