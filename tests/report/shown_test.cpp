// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// No number is shown finer than its doubt (Evaluation of measurement data, JCGM 100:2008, 7.2.6); times are
// shown as finely as they are set.
#include "report/shown.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "support/rooms.hpp"

namespace fogproof::tests {

// The example of 7.2.6: 10.05762 ohm with 27 milliohm is rounded to 10.058 ohm.
TEST(Shown, NumbersAreRoundedToTheirDoubt) {
    const Interval resistance{10.05762, 10.05762 - 0.027, 10.05762 + 0.027};
    EXPECT_EQ(shown_number(resistance.value, resistance), "10.058");
    EXPECT_EQ(shown_number(resistance.high, resistance), "10.085") << "ends like their middle";
    EXPECT_EQ(shown_number(0.04, {0.04, 0.0103, 0.156}), "0.040");
    EXPECT_EQ(shown_number(105.123, {105.123, 85.4, 124.8}), "105");
    EXPECT_EQ(shown_number(1, {1, 1, 1.21}), "1.00") << "a doubt on one side alone";
    EXPECT_EQ(shown_number(2, {2, 1.058, 2 + 1e-9}), "2.00") << "at the end of its range";
    EXPECT_EQ(shown_number(8, {8, 8, 8}), "8") << "exact";
}

// A sixth of a stop is the least that a strip tells apart; common practice, no source.
TEST(Shown, SecondsAreToldToATwentyFourthOfAStopHoweverRoughlyTheyAreKnown) {
    EXPECT_EQ(shown_seconds({18, 7.9, 41}), "18 s (7.9 s to 41 s)");
    EXPECT_EQ(shown_seconds({3.38, 1.87, 6.1}), "3.4 s (1.9 s to 6.1 s)");
    EXPECT_EQ(shown_seconds({10.4, 9.8, 13.4}), "10.4 s (9.8 s to 13.4 s)");
    EXPECT_EQ(shown_seconds({0.15, 0.061, 0.37}), "0.15 s (0.06 s to 0.37 s)");
    EXPECT_EQ(shown_seconds({75, 54, 105}), "75 s (54 s to 105 s)");
    EXPECT_EQ(shown(Seconds{108}), "110 s");
    EXPECT_EQ(shown(Seconds{1040}), "1040 s");
    EXPECT_EQ(shown_seconds({}), "none");
    constexpr double kSame = 1.0 / 24 + 1e-9;
    for (double time = 1; time < 2000; time *= 1.01)
        EXPECT_NEAR(std::log2(std::stod(shown(Seconds{time})) / time), 0, kSame) << time;
}

TEST(Shown, AGuessHasNoInterval) {
    EXPECT_EQ(shown_seconds({54, 0.001, 1e12}), "54 s (a mere guess)");
}

}  // namespace fogproof::tests
