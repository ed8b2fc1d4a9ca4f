// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/reciprocity.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace fogproof::tests {
namespace {

using pack::with_reciprocity;

constexpr double kRounding = 1e-12;

// log10 of the light that a time gives, over that of the speed point: t^p (Schwarzschild's law, from memory).
double log_light(const Pack& pack, double seconds) {
    return pack.darkroom.enlarger.reciprocity * std::log10(seconds) - pack.speed_log_s;
}

Pack with_seconds() {
    Pack pack;
    pack.darkroom.anchored = true;
    pack.darkroom.enlarger.reciprocity = 0.97;
    pack.speed_log_s = 1.3;
    return pack;
}

TEST(Reciprocity, LeavesTheLightOfTimesLikeThoseThatWereRead) {
    Pack pack = with_seconds();
    pack.readings = {"strip,exposure_s,density\na,7,0.5\nb,28,1.1\nslip,,0.4\n", "box"};
    const Pack other = with_reciprocity(pack, 0.85);
    EXPECT_EQ(other.darkroom.enlarger.reciprocity, 0.85);
    EXPECT_NEAR(log_light(other, 14), log_light(pack, 14), kRounding) << "the geometric mean of 7 and 28";
    EXPECT_LT(log_light(other, 100), log_light(pack, 100)) << "long times lose light";
    EXPECT_GT(log_light(other, 2), log_light(pack, 2)) << "short ones gain";
}

TEST(Reciprocity, LeavesTheTimeOfTheSpeedPointWhereNothingWasRead) {
    const Pack pack = with_seconds();
    const double seconds = std::pow(10.0, 1.3 / 0.97);
    EXPECT_NEAR(log_light(with_reciprocity(pack, 0.85), seconds), 0, kRounding);
}

TEST(Reciprocity, OfAPackWithoutSecondsMovesNothingElse) {
    Pack pack = with_seconds();
    pack.darkroom.anchored = false;
    EXPECT_EQ(with_reciprocity(pack, 0.85).speed_log_s, pack.speed_log_s);
}

}  // namespace
}  // namespace fogproof::tests
