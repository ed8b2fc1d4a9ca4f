// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Properties of cubic B-splines on even knots, from memory of C. de Boor, A Practical Guide to Splines: the
// weights add up to one, numbers on a straight line give that line, and straight lines do not bend.
#include "reading/tone_spline.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kRounding = 1e-12;

TEST(ToneSpline, WeightsAddUpToOneAndSlopesToNothing) {
    const reading::ToneSpline spline(-0.5, 2.5);
    for (double x = -0.5; x < 2.5; x += 0.013) {
        const auto at = spline.at(x);
        EXPECT_NEAR(std::accumulate(at.weight.begin(), at.weight.end(), 0.0), 1, kRounding) << x;
        EXPECT_NEAR(std::accumulate(at.slope.begin(), at.slope.end(), 0.0), 0, kRounding) << x;
    }
}

TEST(ToneSpline, NumbersOnALineGiveTheLineAndItsSlopeAndDoNotBend) {
    reading::ToneSpline spline(0, 3);
    const double step = 3.0 / (reading::ToneSpline::kNumbers - 3);
    for (int i = 0; i < reading::ToneSpline::kNumbers; ++i) spline.numbers[i] = 1.7 - 0.4 * step * (i - 1);
    for (double x = 0.01; x < 3; x += 0.07) {
        EXPECT_NEAR(spline.density(spline.at(x)), 1.7 - 0.4 * x, kRounding) << x;
        EXPECT_NEAR(spline.slope(spline.at(x)), -0.4, kRounding) << x;
    }
    EXPECT_NEAR(spline.numbers.dot(spline.bends() * spline.numbers), 0, 1e-9);
}

TEST(ToneSpline, SlopeIsTheChangeOfDensity) {
    reading::ToneSpline spline(0, 3);
    for (int i = 0; i < reading::ToneSpline::kNumbers; ++i) spline.numbers[i] = i * i % 7;
    constexpr double kStep = 1e-6;
    for (double x = 0.05; x < 2.9; x += 0.11)
        EXPECT_NEAR(
            spline.slope(spline.at(x)),
            (spline.density(spline.at(x + kStep)) - spline.density(spline.at(x - kStep))) / (2 * kStep), 1e-5)
            << x;
}

}  // namespace
}  // namespace fogproof::tests
