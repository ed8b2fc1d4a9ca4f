// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The lights of a small pixel and the few that stand for them.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "scan/cell_lights.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

double moment(const std::vector<SharedLight>& lights, int power) {
    double sum = 0;
    for (const SharedLight& each : lights) sum += each.share * std::pow(each.light, power);
    return sum;
}

// Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4: Gauss-Legendre abscissae and weights
// for three points, 0.774597 and 0.555556 of 2. Many equal lights between -1 and 1 are all but even.
TEST(LightQuadrature, OfEvenLightsIsThatOfGaussAndLegendre) {
    std::vector<SharedLight> even;
    constexpr int kMany = 2000;
    for (int i = 0; i < kMany; ++i) even.push_back({(2.0 * i + 1) / kMany - 1, 1.0 / kMany});
    const auto points = LightQuadrature(even).points(3);
    ASSERT_EQ(points.size(), 3u);
    EXPECT_NEAR(points[0].light, -0.774597, 1e-5);
    EXPECT_NEAR(points[1].light, 0, 1e-9);
    EXPECT_NEAR(points[2].light, 0.774597, 1e-5);
    EXPECT_NEAR(points[0].share, 0.555556 / 2, 1e-5);
    EXPECT_NEAR(points[1].share, 0.888889 / 2, 1e-5);
}

TEST(LightQuadrature, KeepsMomentsAndNoMorePointsThanThereAreLights) {
    const std::vector<SharedLight> tones{{100, 0.2}, {180, 0.5}, {900, 0.2}, {1000, 0.1}};
    const LightQuadrature quadrature(tones);
    EXPECT_EQ(quadrature.most(), 4u);
    const auto three = quadrature.points(3), four = quadrature.points(4);
    for (int power = 0; power <= 5; ++power)
        EXPECT_NEAR(moment(three, power) / moment(tones, power), 1, 1e-9) << power;
    for (std::size_t i = 0; i < tones.size(); ++i) {
        EXPECT_NEAR(four[i].light, tones[i].light, 1e-6);
        EXPECT_NEAR(four[i].share, tones[i].share, 1e-9);
    }
}

TEST(CellLights, CutPixelsCountByTheirShares) {
    // Two lines, of which the second counts by a half; columns from a half of the first to all of the third.
    const std::vector<std::uint16_t> upper{40, 80, 400}, lower{40, 40, 800};
    const CellRow row{{upper.data(), lower.data()}, {1, 0.5}};
    const Cell column{1, 3, 0, 0, 0.5, 0};
    CellLights lights;
    lights.gather(row, column);
    // Lights 10, 20, 100, 200 with shares 0.5 + 0.25 + 0.5, 1, 1, 0.5 of 3.75.
    EXPECT_NEAR(lights.mean(), (1.25 * 10 + 20 + 100 + 0.5 * 200) / 3.75, 1e-6);
    EXPECT_EQ(lights.span(), 190);
    ASSERT_EQ(lights.each().size(), 4u);
    EXPECT_NEAR(lights.each()[0].share, 1.25 / 3.75, 1e-6);
    const double mean = lights.mean();
    double square = 0, cube = 0;
    for (const SharedLight& each : lights.each()) {
        square += each.share * std::pow(each.light - mean, 2);
        cube += each.share * std::pow(each.light - mean, 3);
    }
    EXPECT_NEAR(lights.deviation(), std::sqrt(square), 1e-4);
    EXPECT_NEAR(lights.skew(), cube / std::pow(square, 1.5), 1e-5);
}

}  // namespace
}  // namespace fogproof::tests
