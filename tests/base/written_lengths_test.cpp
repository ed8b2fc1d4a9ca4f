// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/written_lengths.hpp"

#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using Sides = std::vector<double>;

TEST(WrittenLengths, AreMillimetresUnlessAUnitStandsBehindThem) {
    EXPECT_EQ(millimetres_in("240x300"), (Sides{240, 300}));
    EXPECT_EQ(millimetres_in(" 240 x 300 mm"), (Sides{240, 300}));
    EXPECT_EQ(millimetres_in("18x24cm"), (Sides{180, 240}));
    EXPECT_EQ(millimetres_in("27x33x1.2 cm"), (Sides{270, 330, 12}));
    // An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    EXPECT_EQ(millimetres_in("8x10in"), (Sides{8 * 25.4, 10 * 25.4}));
    EXPECT_EQ(millimetres_in("240"), (Sides{240}));
}

TEST(WrittenLengths, AreNothingWhereOneIsNoNumber) {
    for (const char* text :
         {"", "cm", "axb", "24x", "x30", "24x30km", "24,5x30", "nanx2", "24cmx30cm", "24*30"})
        EXPECT_FALSE(millimetres_in(text)) << text;
}

}  // namespace
}  // namespace fogproof::tests
