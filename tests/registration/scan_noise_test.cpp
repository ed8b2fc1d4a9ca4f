// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Noise of a negative's scan, drawn by hand where there is clear film to show it. Closed arithmetic; no
// published source.
#include "registration/scan_noise.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

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
    // Means of many pixels tell; of how much noise there is, nothing is known.
    view.scan_pixels = 3 * kFilmWide;
    const auto noise = scan_noise(view.at(1000), view);
    ASSERT_TRUE(noise);
    EXPECT_GT(noise->at(0), 1);
    NegativeView whole = scanned(exposure(1), 0.004);
    whole.is_coarsely_coded = true;
    EXPECT_TRUE(scan_noise(whole.at(1000), whole)) << "clear film shows it whatever the codes are";
}

TEST(ScanNoise, IsNotKnownWhereClearFilmIsPerfectlyEven) {
    const NegativeView view = scanned(exposure(1), 0);
    EXPECT_FALSE(scan_noise(view.at(1000), view));
}

TEST(ScanNoise, IsSharedByNeighboursThatShareAPixelOfTheScan) {
    // Pixels of a scan that are all noise, and means over one and a half of them.
    constexpr int kMeans = 600;
    GreyImage noise(kMeans * 3 / 2, kMeans * 3 / 2);
    std::mt19937 random(4);
    std::normal_distribution<float> normal(0, 1);
    for (float& value : noise.values) value = normal(random);
    const GreyImage means = registration::area_means(noise, kMeans, kMeans);
    double together = 0, squares = 0;
    for (int y = 0; y < kMeans; ++y)
        for (int x = 0; x + 1 < kMeans; ++x)
            together += double(means.at(x, y)) * double(means.at(x + 1, y)),
                squares += double(means.at(x, y)) * double(means.at(x, y));
    NegativeView view = scanned_without_clear_film(exposure(1), 0);
    view.scan_pixels = kFilmWide * 3 / 2;
    EXPECT_NEAR(scan_noise(view.at(1000), view)->neighbours, together / squares, 0.06);
    view.scan_pixels = kFilmWide;
    EXPECT_EQ(scan_noise(view.at(1000), view)->neighbours, 0) << "nothing is cut";
}

}  // namespace
}  // namespace fogproof::tests
