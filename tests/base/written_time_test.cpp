// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/written_time.hpp"

#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(WrittenTime, IsSecondsOrMinutesOrBoth) {
    EXPECT_EQ(seconds_in("90"), 90);
    EXPECT_EQ(seconds_in("90s"), 90);
    EXPECT_EQ(seconds_in(" 8.5 s "), 8.5);
    EXPECT_EQ(seconds_in("2min"), 120);
    EXPECT_EQ(seconds_in("1.5 min"), 90);
    EXPECT_EQ(seconds_in("1min30s"), 90);
    EXPECT_EQ(seconds_in("1 min 30 s"), 90);
    EXPECT_EQ(seconds_in("1min30"), 90);
    EXPECT_EQ(seconds_in("1:30"), 90);
    EXPECT_EQ(seconds_in("0:05"), 5);
    EXPECT_EQ(seconds_in("10:07.5"), 607.5);
    EXPECT_EQ(seconds_in("-5"), -5) << "whether a time may be negative is for its option to say";
}

TEST(WrittenTime, RefusesWhatMayBeMeantOtherwise) {
    for (const char* text :
         {"",    "s",  "min", "1:5",   "1:5.0", "1:90", "1min90s", "1:2:03", "-1:30", "1:-5",   "1min2min",
          "1,5", "2m", "1h",  "1:30x", "nan",   "inf",  "1:",      ":30",    "1:nan", "1.5:30", "1.5min30s"})
        EXPECT_FALSE(seconds_in(text)) << text;
}

}  // namespace
}  // namespace fogproof::tests
