// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// No figure is shown finer than its doubt (Evaluation of measurement data, JCGM 100:2008, 7.2.6).
#include "report/shown.hpp"

#include <gtest/gtest.h>

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
    EXPECT_EQ(shown_number(8, {8, 8, 8}), "8") << "exact";
}

TEST(Shown, SecondsHaveNoDecimalsWithinTheirDoubt) {
    EXPECT_EQ(shown_seconds({18, 7.9, 41}), "18 s (8 s to 41 s)");
    EXPECT_EQ(shown_seconds({8.4, 7.6, 9.3}), "8.4 s (7.6 s to 9.3 s)");
    EXPECT_EQ(shown_seconds({8.4, 4.1, 17}), "8 s (4 s to 17 s)")
        << "a tenth of a second is less than a tenth of 4.3 s";
    EXPECT_EQ(shown_seconds({0.15, 0.061, 0.37}), "0.15 s (0.06 s to 0.37 s)");
    EXPECT_EQ(shown_seconds({75, 54, 103}), "75 s (54 s to 100 s)");
    EXPECT_EQ(shown_seconds({}), "none");
}

}  // namespace fogproof::tests
