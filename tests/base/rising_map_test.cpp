// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whatever its slopes are, the map rises, keeps its place and can be undone.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

#include "fogproof/base/rising_map.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr std::array kNodes{-1.0, 0.0, 0.5, 3.0};
// Rounding of some operations on numbers below a hundred.
constexpr double kRounding = 1e-12;

RisingMap<4> random_map(std::mt19937& random, double kept) {
    std::normal_distribution<> usual(0, 1.5);
    std::array<double, 4> log_slope{};
    for (double& g : log_slope) g = usual(random);
    return {kNodes, log_slope, kept};
}

TEST(RisingMap, WithoutSlopesIsNoneAtAll) {
    const RisingMap<4> map(kNodes, std::array<double, 4>{}, 0.2);
    for (double x = -3; x < 5; x += 0.13) EXPECT_NEAR(map(x), x, kRounding);
}

TEST(RisingMap, RisesKeepsItsPlaceAndIsUndone) {
    std::mt19937 random(7);
    for (int i = 0; i < 200; ++i) {
        const RisingMap<4> map = random_map(random, 0.2);
        EXPECT_NEAR(map(0.2), 0.2, kRounding);
        double before = map(-3.001);
        for (double x = -3; x < 5; x += 0.01) {
            const double here = map(x);
            EXPECT_GT(here, before) << x;
            EXPECT_NEAR(map.inverse(here), x, kRounding * std::exp(6)) << x;
            before = here;
        }
    }
}

// The integral of e^g by Simpson's rule, which knows nothing of the closed form.
TEST(RisingMap, IsTheIntegralOfItsSlope) {
    const std::array<double, 4> log_slope{0.3, -0.6, 0.9, 0.9};
    const RisingMap<4> map(kNodes, log_slope, -1);
    constexpr int kParts = 2000;
    const double step = 0.5 / kParts;
    double sum = 0;
    for (int i = 0; i <= kParts; ++i) {
        const double g = std::lerp(-0.6, 0.9, double(i) / kParts);
        sum += std::exp(g) * (i == 0 || i == kParts ? 1 : i % 2 == 1 ? 4 : 2);
    }
    EXPECT_NEAR(map(0.5) - map(0), sum * step / 3, kRounding);
    // One level cell: its slope is e^0.9.
    EXPECT_NEAR(map(2) - map(1), std::exp(0.9), kRounding);
}

}  // namespace
}  // namespace fogproof::tests
