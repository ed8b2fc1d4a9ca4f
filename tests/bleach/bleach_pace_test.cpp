// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A paper whose bleach departs from the law.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <boost/math/quadrature/trapezoidal.hpp>
#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <random>

#include "fogproof/base/rising_map.hpp"
#include "fogproof/bleach/bleach.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

BleachRate random_rate(std::mt19937& random) {
    std::normal_distribution<> usual(0, 0.6);
    BleachRate rate;
    rate.starvation = 0.08;
    for (double& g : rate.pace) g = usual(random);
    return rate;
}

// Straight between nodes.
template <std::size_t N>
double between(const std::array<double, N>& nodes, const std::array<double, N>& values, double at) {
    std::size_t cell = 0;
    while (cell + 2 < N && at > nodes[cell + 1]) ++cell;
    const double share = (at - nodes[cell]) / (nodes[cell + 1] - nodes[cell]);
    return std::lerp(values[cell], values[cell + 1], share);
}

// dA/dx = -m / (m + K) / e^pace(A), m the mapped density: integrated by another library.
TEST(Pace, IsTheSolutionOfTheRateLawStretchedByIt) {
    using namespace boost::numeric::odeint;
    constexpr double kOde = 1e-10;
    std::mt19937 random(3);
    for (int i = 0; i < 20; ++i) {
        const BleachRate rate = random_rate(random);
        const RisingMap<kPaceNodes.size()> map(kPaceNodes, rate.pace, 0);
        const auto pace = [&](double a) { return between(kPaceNodes, rate.pace, a); };
        for (const double a : {0.03, 0.2, 0.7})
            for (const double dose : {0.02, 0.2, 0.6}) {
                double silver = a;
                integrate_adaptive(
                    make_controlled<runge_kutta_dopri5<double>>(kOde, kOde),
                    [&](double now, double& change, double) {
                        const double m = map(now);
                        change = -m / (m + rate.starvation) / std::exp(pace(now));
                    },
                    silver, 0.0, dose, 1e-4);
                // The pace has corners, at which the integrator's order falls.
                EXPECT_NEAR(bleached({{a}}, rate, dose).left.value, silver, 1e-6) << a << " " << dose;
            }
    }
}

TEST(Pace, DoseBetweenTwoDepositsLeadsFromOneToTheOther) {
    std::mt19937 random(4);
    for (int i = 0; i < 50; ++i) {
        const BleachRate rate = random_rate(random);
        const double dose = dose_between({0.5}, {0.1}, rate);
        EXPECT_NEAR(bleached({{0.5}}, rate, dose).left.value, 0.1, 1e-9);
    }
}

TEST(Pace, WhatWasDarkerStaysDarkerAndMoreBleachNeverDarkens) {
    std::mt19937 random(5);
    for (int i = 0; i < 100; ++i) {
        const BleachRate rate = random_rate(random);
        for (const double dose : {0.01, 0.1, 0.4, 1.0, 3.0}) {
            double thinner = 0;
            for (double a = 0.005; a < 0.9; a += 0.005) {
                const double left = bleached({{a}}, rate, dose).left.value;
                EXPECT_GE(left, thinner) << a << " " << dose;
                EXPECT_LE(left, bleached({{a}}, rate, dose / 2).left.value) << a << " " << dose;
                thinner = left;
            }
        }
    }
}

// How the bath departs from the power of time.
BleachRate unsteady_rate(std::mt19937& random) {
    std::normal_distribution<> usual(0, 0.5);
    BleachRate rate;
    rate.time_exponent = 0.9;
    for (double& g : rate.quicker) g = usual(random);
    return rate;
}

TEST(Pace, OfAnUnsteadyBathALongerBleachIsNoWeakerOneAndTheTimeOfADoseGivesIt) {
    std::mt19937 random(5);
    for (int i = 0; i < 50; ++i) {
        const BleachRate rate = unsteady_rate(random);
        double before = 0;
        for (double time = rate.soak_s + 1; time < 1000; time *= 1.1) {
            const double dose = bleach_dose(rate, {}, {time});
            EXPECT_GT(dose, before);
            EXPECT_NEAR(bleach_time(rate, {}, dose).value, time, 1e-9 * time);
            before = dose;
        }
    }
}

// d ln x / d ln t = b e^quicker, integrated by another library from the time at which the pace is stated.
TEST(Pace, OfAnUnsteadyBathIsTheIntegralOfItsSlope) {
    std::mt19937 random(6);
    for (int i = 0; i < 20; ++i) {
        const BleachRate rate = unsteady_rate(random);
        const auto slope = [&](double log_time) {
            const double at = std::clamp(log_time, kQuickerNodes.front(), kQuickerNodes.back());
            return rate.time_exponent * std::exp(between(kQuickerNodes, rate.quicker, at));
        };
        EXPECT_NEAR(bleach_dose(rate, {}, {rate.soak_s + kPacedAt_s}), rate.per_second * kPacedAt_s, 1e-12);
        for (const double time : {6.0, 15.0, 70.0, 200.0, 600.0}) {
            const double grown =
                boost::math::quadrature::trapezoidal(slope, 0.0, std::log(time / kPacedAt_s), 1e-9, 20);
            EXPECT_NEAR(
                std::log(bleach_dose(rate, {}, {rate.soak_s + time}) / (rate.per_second * kPacedAt_s)), grown,
                1e-5)
                << time;
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
