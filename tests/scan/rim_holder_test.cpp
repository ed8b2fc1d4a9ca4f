// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Holders told by the clear film between them and the picture, on small scans drawn pixel by pixel.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <functional>

#include "scan/rim_holder.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using scan::kPainted;
using scan::SmallScan;
using scan::with_rim_painted;

constexpr int kAcross = 120, kDown = 90, kHolder = 10, kEdge = 16;  // the picture begins at kEdge
constexpr double kClear = 0.3, kTone = 1.2;

int to_rim(int x, int y) {
    return std::min({x, y, kAcross - 1 - x, kDown - 1 - y});
}

/// Holder and picture of one tone, clear film between them, and whatever else is laid over that.
SmallScan drawn(const std::function<bool(int, int)>& also = {}) {
    SmallScan made{kAcross, kDown, {}};
    for (int y = 0; y < kDown; ++y)
        for (int x = 0; x < kAcross; ++x) {
            const bool clear = to_rim(x, y) >= kHolder && to_rim(x, y) < kEdge && !(also && also(x, y));
            made.density.push_back(float(clear ? kClear : kTone));
        }
    return made;
}

void expect_holder_painted(const SmallScan& painted) {
    for (int y = 0; y < kDown; ++y)
        for (int x = 0; x < kAcross; ++x) {
            if (to_rim(x, y) < kHolder) {
                EXPECT_EQ(painted.at(x, y), kPainted) << x << " " << y;
            }
            if (to_rim(x, y) >= kEdge) {
                EXPECT_EQ(painted.at(x, y), float(kTone)) << x << " " << y;
            }
        }
}

TEST(RimHolder, IsPaintedWhereClearFilmPartsItFromThePicture) {
    const auto painted = with_rim_painted(drawn(), kClear);
    ASSERT_TRUE(painted);
    expect_holder_painted(*painted);
    EXPECT_EQ(painted->at(60, kHolder + 2), float(kClear));
}

TEST(RimHolder, DustOnTheClearFilmIsNoBridge) {
    const auto painted = with_rim_painted(drawn([](int x, int) { return x >= 60 && x < 64; }), kClear);
    ASSERT_TRUE(painted);
    expect_holder_painted(*painted);
}

TEST(RimHolder, IsLeftWhereItTouchesThePicture) {
    EXPECT_FALSE(with_rim_painted(drawn([](int x, int) { return x > 60; }), kClear));
}

TEST(RimHolder, ThingsThatTouchLittleOfTheRimAreNone) {
    SmallScan scan = drawn();
    for (int y = 0; y < kDown; ++y)
        for (int x = 0; x < kAcross; ++x)
            if (to_rim(x, y) < kHolder && (x < 40 || x > 80 || y > 45))
                scan.density[std::size_t(y * kAcross + x)] = float(kClear);
    EXPECT_FALSE(with_rim_painted(scan, kClear));
}

}  // namespace
}  // namespace fogproof::tests
