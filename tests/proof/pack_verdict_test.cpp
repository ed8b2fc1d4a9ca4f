// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/pack_verdict.hpp"

#include <gtest/gtest.h>

#include "pack/from_slips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

PackSummary cleared_to(Interval white, Interval black) {
    PackSummary summary;
    summary.blank.density = {0.4, 0.38, 0.42};
    summary.black = {2.0, 1.95, 2.05};
    summary.black_cleared = black;
    summary.bleached = {{50, {}, {{0.2, 0.15, 0.25}, {}}}, {100, {}, {white, {}}}};
    return summary;
}

TEST(PackVerdict, IsOfTheClearedSheet) {
    const PackVerdict verdict = pack_verdict(cleared_to({0.11, 0.09, 0.13}, {1.75, 1.72, 1.78}));
    EXPECT_TRUE(verdict.is_cleared);
    EXPECT_EQ(verdict.white.value, 0.11);
    EXPECT_EQ(verdict.black.value, 1.75);
    EXPECT_EQ(verdict.full_scale, Answer::yes);
    EXPECT_EQ(verdict.deep_blacks, Answer::yes);
}

TEST(PackVerdict, IsYesOrNoOnlyWhereTheDoubtLeavesNothingElse) {
    const auto deep = [](Interval black) {
        return pack_verdict(cleared_to({0.11, 0.1, 0.12}, black)).deep_blacks;
    };
    EXPECT_EQ(deep({1.71, 1.65, 1.77}), Answer::likely);
    EXPECT_EQ(deep({1.69, 1.63, 1.75}), Answer::unlikely);
    EXPECT_EQ(deep({1.6, 1.55, 1.65}), Answer::no);
    const auto full = [](Interval white, Interval black) {
        return pack_verdict(cleared_to(white, black)).full_scale;
    };
    EXPECT_EQ(full({0.3, 0.25, 0.35}, {2.0, 1.9, 2.1}), Answer::no) << "its white stays grey";
    EXPECT_EQ(full({0.1, 0.09, 0.11}, {1.0, 0.95, 1.05}), Answer::no) << "black is 0.9 above white";
    EXPECT_EQ(full({0.14, 0.12, 0.16}, {2.0, 1.9, 2.1}), Answer::likely);
}

TEST(PackVerdict, APaperWithoutFogNeedsNoBleach) {
    PackSummary summary;
    summary.blank.density = {0.08, 0.07, 0.09};
    summary.black = {2.0, 1.95, 2.05};
    const PackVerdict verdict = pack_verdict(summary);
    EXPECT_FALSE(verdict.is_cleared);
    EXPECT_EQ(verdict.full_scale, Answer::yes);
}

TEST(PackVerdict, BleachTakesBlackTooAndMoreOfItTheHeavierTheFog) {
    // Ferricyanide takes silver from the whole print (common practice, no source for how much).
    const auto fallen = [](double blank) {
        const WorkedPacks worked(pack_from_slips({.white_density = 0.08, .blank_density = blank}));
        const PackSummary summary = pack_summary(worked);
        EXPECT_TRUE(summary.black_cleared);
        EXPECT_LT(summary.black_cleared->low, summary.black_cleared->value);
        return summary.black.value - summary.black_cleared->value;
    };
    const double light = fallen(0.2), heavy = fallen(0.6);
    EXPECT_GT(light, 0);
    EXPECT_GT(heavy, light);
}

}  // namespace
}  // namespace fogproof::tests
