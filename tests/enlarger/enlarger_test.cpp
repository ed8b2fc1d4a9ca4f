// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/enlarger/enlarger.hpp"
#include "support/rooms.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace fogproof::tests {
namespace {

namespace {

Enlarger plain() {
    Enlarger enlarger;
    enlarger.flare = 0;
    return enlarger;
}

double blue_light(const Enlarger& enlarger, double density, double seconds) {
    const std::vector<Exposure> exposures{{Filter{}, {seconds}}};
    return light_at_easel({density}, 0, enlarger, exposures).blue;
}

}  // namespace

// "Theory & Practice" (L. P. Clerc, c. 1937), ss. 511-512: the tone printed in 12 s under density 1.5 needs
// 30 s under density 1.9 (exactly 12 * 10^0.4 = 30.14 s).
TEST(Enlarger, DenserNegativeNeedsTheTimeOfTheWorkedExample) {
    const Enlarger enlarger = plain();
    const double light = blue_light(enlarger, 1.5, 12);
    const double seconds = 12 * light / blue_light(enlarger, 1.9, 12);
    EXPECT_NEAR(seconds, 30, 0.5);  // the book's rounding
    EXPECT_NEAR(seconds, 30.14, 0.005);
}

// "Theory & Practice", Practical Enlarging, about s. 770: exposures go as 9 : 16 : 25 : 36 at magnifications
// 2, 3, 4, 5 in diffused light at the same stop; from 2x to 4x it is 2.78.
TEST(Enlarger, ExposureGoesWithTheSquareOfMagnificationPlusOne) {
    Enlarger enlarger = plain();
    enlarger.anchor.magnification = 2;
    const auto exposure = [&](double magnification) {
        enlarger.setting.magnification = magnification;
        return 1 / head_factor(enlarger);
    };
    EXPECT_NEAR(exposure(3), 16.0 / 9, 1e-12);
    EXPECT_NEAR(exposure(4), 25.0 / 9, 1e-12);
    EXPECT_NEAR(exposure(5), 36.0 / 9, 1e-12);
    EXPECT_NEAR(exposure(4), 2.78, 0.005);
}

// f-number by its definition: light goes with the inverse square, so f/8 to f/11.3 halves it.
TEST(Enlarger, ClosingTheLensByOneStopHalvesTheLight) {
    Enlarger enlarger = plain();
    enlarger.anchor.f_number = 8;
    enlarger.setting.f_number = 8 * std::sqrt(2.0);
    EXPECT_NEAR(head_factor(enlarger), 0.5, 1e-12);
}

// A quarter stop is a factor of 1.189 (published in f-stop timing tables for the darkroom,
// unblinkingeye.com).
TEST(Enlarger, QuarterStopIsAFactorOf1189) {
    EXPECT_NEAR(stops_factor(0.25), 1.189, 0.0005);
}

// Schwarzschild: E = I t^p with his first value 0.86 (liquisearch.com, Schwarzschild law).
TEST(Enlarger, ReciprocityRaisesTimeToItsExponent) {
    Enlarger enlarger = plain();
    enlarger.reciprocity = 0.86;
    EXPECT_NEAR(blue_light(enlarger, 0, 40) / blue_light(enlarger, 0, 20), std::pow(2.0, 0.86), 1e-12);
}

// Callier's coefficient is specular over diffuse density by definition.
TEST(Enlarger, CallierStretchesTheDensityRange) {
    Enlarger enlarger = plain();
    enlarger.callier = 1.3;
    EXPECT_NEAR(-std::log10(transmitted({0.8}, 0, enlarger)), 1.04, 1e-12);
}

TEST(Enlarger, FlareSpreadsMeanLightAndKeepsTheTotal) {
    Enlarger enlarger = plain();
    enlarger.flare = 0.03;
    const double mean = (std::pow(10, -0.2) + std::pow(10, -1.4)) / 2;
    const double thin = transmitted({0.2}, mean, enlarger), dense = transmitted({1.4}, mean, enlarger);
    EXPECT_NEAR((thin + dense) / 2, mean, 1e-12);
    EXPECT_LT(std::log10(thin / dense), 1.2);
}

TEST(Enlarger, ExposuresThroughSeveralFiltersAddUp) {
    const Enlarger enlarger = plain();
    const std::vector<Exposure> both{{Filter{0.2, 0.8}, {4}}, {Filter{0.9, 0.0}, {7}}};
    const std::vector<Exposure> flash{{Filter{0.5, 0.5}, {1}}};
    const EaselLight light = light_at_easel({0.3}, 0, enlarger, both, flash);
    const double t = std::pow(10, -0.3);
    EXPECT_NEAR(light.blue, t * (4 * 0.2 + 7 * 0.9) + 0.5, 1e-12);
    EXPECT_NEAR(light.green, t * 4 * 0.8 + 0.5, 1e-12);
}

}  // namespace
}  // namespace fogproof::tests
