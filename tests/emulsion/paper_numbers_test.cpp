// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/emulsion/paper_numbers.hpp"

#include <gtest/gtest.h>

#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

const boost::math::normal kUnitNormal;

}  // namespace

// ISO 6846, points T and S as in the Focal Encyclopedia of Photography, p. 679. For a probit curve the range
// has a closed form: R = 100 s (z(0.90) - z(0.04 / Dn)); Dn 2.0: R 110 at s 0.3298, R 50 at 0.1499, R 160 at
// 0.4797.
TEST(PaperNumbers, IsoRangeOfAProbitCurveIsTheClosedForm) {
    for (const auto& [net, s, range] :
         {std::tuple{2.0, 0.3298, 110.0}, {2.0, 0.1499, 50.0}, {2.0, 0.4797, 160.0}}) {
        const double minimum = 0.05;
        const PaperCurve curve = [&, n = net, spread = s](LogExposure h) {
            return PrintDensity{minimum + n * cdf(kUnitNormal, (h.value - 0.7) / spread)};
        };
        const auto numbers = paper_numbers(curve, {minimum}, {minimum + net});
        ASSERT_TRUE(numbers);
        EXPECT_NEAR(numbers->iso_range, range, 0.1);
        EXPECT_NEAR(numbers->iso_range,
                    100 * s * (quantile(kUnitNormal, 0.90) - quantile(kUnitNormal, 0.04 / net)), 1e-6);
        EXPECT_NEAR(curve(numbers->speed).value, minimum + 0.60, 1e-9);
    }
}

// Poisson "at least r hits" papers, Dn 2.0: R 205.7, 125.8, 97.2, 81.8 for r 1 to 4; r = 1 has the closed
// form log10(ln 10 / -ln 0.98) = 2.0568.
TEST(PaperNumbers, IsoRangeOfQuantumHitPapersIsTheirOwn) {
    const double expected[] = {205.7, 125.8, 97.2, 81.8};
    for (int hits = 1; hits <= 4; ++hits) {
        const PaperCurve curve = [hits](LogExposure h) {
            const double mean = std::pow(10.0, h.value);
            double term = std::exp(-mean), missed = 0;
            for (int k = 0; k < hits; ++k, term *= mean / k) missed += term;
            return PrintDensity{2.0 * (1 - missed)};
        };
        const auto numbers = paper_numbers(curve, {0}, {2.0});
        ASSERT_TRUE(numbers);
        EXPECT_NEAR(numbers->iso_range, expected[hits - 1], 0.1);
        if (hits == 1) {
            EXPECT_NEAR(numbers->iso_range, 100 * std::log10(std::log(10) / -std::log(0.98)), 1e-4);
        }
    }
}

TEST(PaperNumbers, CurveWithoutASpeedPointHasNoNumbers) {
    const PaperCurve curve = [](LogExposure h) { return PrintDensity{0.5 * cdf(kUnitNormal, h.value)}; };
    EXPECT_FALSE(paper_numbers(curve, {0}, {0.5}));
}

// P = 1000 / Hm in lux seconds, third-stop series (ISO 6846, from memory): 4.0 lx s is P 250, 2.0 is P 500.
TEST(PaperNumbers, SpeedIsAThousandOverTheExposureInThirdStops) {
    EXPECT_EQ(rounded_iso_speed(4.0), 250);
    EXPECT_EQ(rounded_iso_speed(2.0), 500);
    EXPECT_EQ(rounded_iso_speed(0.5), 2000);
    EXPECT_EQ(rounded_iso_speed(20.4), 50);
}

}  // namespace fogproof::tests
