// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan made small: as a lens would, by the mean of its light.
#include "scan/small_negative.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <vector>

#include "support/film_scan.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

class SmallNegatives : public testing::Test {
  protected:
    SmallNegatives() { vips_ready(); }
    [[nodiscard]] SmallNegative small(int width, int height, const std::function<double(int, int)>& light,
                                      int side) {
        raster<std::uint16_t>(
            width, height, 1, [&](int x, int y, int) { return std::lround(65535 * light(x, y)); },
            VIPS_INTERPRETATION_GREY16)
            .tiffsave((folder / "scan.tif").c_str());
        Notes notes;
        const Scan scan =
            Scan::open(folder / "scan.tif", {.encoding = Encoding::linear, .whole = true}, notes);
        return small_negative(scan, side);
    }
    static double mean_light(const SmallNegative& small) {
        double sum = 0;
        for (const NegativeDensity density : small.density) sum += std::pow(10.0, -density.value);
        return sum / double(small.density.size());
    }
    TestFolder folder;
};

// D of a 16-bit code near 0.3: half a code is 1e-5 of the light.
constexpr double kCode = 1e-4;

// Half at 0.3, half at 2.3 let through (0.501 + 0.005)/2 of the light: density 0.60, not 1.30. Arithmetic.
TEST_F(SmallNegatives, AverageLightAndNotDensity) {
    const auto stripes = [](int x, int) { return std::pow(10.0, x % 2 ? -2.3 : -0.3); };
    const SmallNegative half = small(64, 64, stripes, 32);
    ASSERT_EQ(half.width, 32);
    ASSERT_EQ(half.height, 32);
    const double wanted = -std::log10((std::pow(10.0, -0.3) + std::pow(10.0, -2.3)) / 2);
    EXPECT_NEAR(wanted, 0.60, 0.005);
    for (const NegativeDensity density : half.density) EXPECT_NEAR(density.value, wanted, kCode);
}

TEST_F(SmallNegatives, KeepTheMeanLightAtAnySize) {
    std::mt19937 random(5);
    std::vector<double> light(97 * 71);
    for (double& share : light) share = std::uniform_real_distribution(0.01, 1.0)(random);
    double mean = 0;
    for (const double share : light) mean += std::round(65535 * share) / 65535 / double(light.size());
    for (const int side : {97, 96, 60, 50, 33, 7, 1}) {
        const SmallNegative made = small(
            97, 71, [&](int x, int y) { return light[std::size_t(y * 97 + x)]; }, side);
        EXPECT_EQ(std::max(made.width, made.height), side);
        EXPECT_NEAR(mean_light(made), mean, 1e-9) << "only sums in double, " << side;
    }
}

TEST_F(SmallNegatives, PixelsAreCutAtExactFractions) {
    // Five pixels onto two: the middle one is shared half and half.
    const double light[] = {1.0, 0.8, 0.6, 0.2, 0.1};
    const SmallNegative made = small(
        40, 40, [&](int x, int) { return light[x / 8]; }, 16);
    ASSERT_EQ(made.width, 16);
    // Cells of 2.5 pixels; the fourth spans 7.5 to 10: half a pixel of the first tone, two of the second.
    const auto at = [&](int x) { return std::pow(10.0, -made.density[std::size_t(x)].value); };
    EXPECT_NEAR(at(0), 1.0, kCode);
    EXPECT_NEAR(at(3), (0.5 * 1.0 + 2 * 0.8) / 2.5, kCode);
    EXPECT_NEAR(at(15), 0.1, kCode);
}

TEST_F(SmallNegatives, AreNeverLargerThanTheScan) {
    const auto even = [](int x, int y) { return 0.2 + 0.001 * (x + y); };
    const SmallNegative made = small(30, 20, even, 400);
    EXPECT_EQ(made.width, 30);
    EXPECT_EQ(made.height, 20);
    EXPECT_NEAR(made.density[31].value, -std::log10(even(1, 1)), kCode);
}

}  // namespace
}  // namespace fogproof::tests
