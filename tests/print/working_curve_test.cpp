// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <limits>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/working_curve.hpp"
#include "pack/doubted.hpp"
#include "pack/uncertainty.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// D; the sheet's own searches end well below this.
constexpr double kDensity = 1e-6;

Pack foggy() {
    Pack pack;
    pack.blank_density = 0.4;
    return pack;
}

// Every number taken as known exactly.
Pack certain(Pack pack) {
    for (const auto& row : pack_numbers()) pack.knowledge[row.name()] = {Origin::given, 0.0};
    pack.sheet_scatter = 0;
    return pack;
}

Recipe at_grade(double grade) {
    Recipe recipe;
    recipe.exposures = {{grade, Stops{0}}};
    return recipe;
}

TEST(Uncertainty, ASumOfNumbersHasTheRootOfTheSquares) {
    // Propagation of independent errors (Gauss): sd of 2a + 3b is sqrt(4 sa^2 + 9 sb^2).
    Pack pack = certain({});
    pack.knowledge["paper.white"] = {Origin::measured, 0.01};
    pack.knowledge["paper.black"] = {Origin::measured, 0.05};
    const Doubted<Pack> asked(pack, std::identity());
    EXPECT_NEAR(
        asked.deviation([](const Pack& p) { return 2 * p.sheet.white_density + 3 * p.black_density; }),
        std::sqrt(4 * 0.01 * 0.01 + 9 * 0.05 * 0.05), 1e-12);
    EXPECT_EQ(asked.deviation([](const Pack&) { return 7.0; }), 0.0);
}

TEST(Uncertainty, AssumedNumbersHaveTheirDoubtGivenOnesLessAndNoneWhereTheirOwnerSaysSo) {
    const PackNumber* row = pack_number("bleach.per_second");
    Pack pack;
    EXPECT_EQ(deviation_of(pack, *row), row->doubt);
    EXPECT_GT(row->doubt, 0);
    pack.knowledge["bleach.per_second"] = {Origin::given, std::nullopt};
    EXPECT_GT(deviation_of(pack, *row), 0) << "a label errs too";
    EXPECT_LT(deviation_of(pack, *row), row->doubt / 2);
    pack.knowledge["bleach.per_second"] = {Origin::given, 0.0};
    EXPECT_EQ(deviation_of(pack, *row), 0);
    pack.knowledge["bleach.per_second"] = {Origin::assumed, 0.0001};
    EXPECT_EQ(deviation_of(pack, *row), 0.0001);
}

TEST(Uncertainty, WhereOneSideContradictsItselfTheOtherCounts) {
    Pack pack = certain({});
    pack.knowledge["paper.white"] = {Origin::measured, 0.05};
    // A white above the blank is refused; only the darker blank remains.
    const Doubted<double> white(pack, [](const Pack& p) { return paper_model(p).sheet.white().value; });
    EXPECT_NEAR(white.deviation(std::identity()), 0.05, kDensity);
}

TEST(Uncertainty, WhereOneSideHasNoSuchNumberTheOtherCounts) {
    Pack pack = certain({});
    pack.knowledge["paper.black"] = {Origin::measured, 0.05};
    const double middle = pack.black_density;
    const Doubted<double> black(pack, [&](const Pack& p) {
        return p.black_density < middle ? std::numeric_limits<double>::quiet_NaN() : p.black_density;
    });
    EXPECT_NEAR(black.deviation(std::identity()), 0.05, 1e-12);
}

TEST(Uncertainty, SpeedWithoutAnAnchorIsNoUncertainty) {
    const auto deviation = [](const Pack& pack) {
        return Doubted<Pack>(pack, std::identity()).deviation([](const Pack& p) {
            return std::log10(time_at_anchor({p.speed_log_s}, p.darkroom.enlarger).value);
        });
    };
    Pack pack;
    pack.knowledge["enlarger.reciprocity"] = {Origin::given, 0.0};
    EXPECT_EQ(deviation(pack), 0);
    pack.darkroom.anchored = true;
    EXPECT_NEAR(deviation(pack), pack_number("speed.log_seconds")->doubt, 1e-12);
}

TEST(WorkingCurve, RunsOverTheFixedPoints) {
    const WorkingCurve curve = working_curve(foggy(), at_grade(2));
    ASSERT_EQ(curve.log_seconds.size(), 121u);
    EXPECT_EQ(curve.log_seconds.front(), -3.0);
    EXPECT_EQ(curve.log_seconds[1], -2.95);
    EXPECT_EQ(curve.log_seconds[60], 0.0);
    EXPECT_EQ(curve.log_seconds.back(), 3.0);
    EXPECT_EQ(curve.density.size(), 121u);
}

TEST(WorkingCurve, IsThePrintOfEveryTime) {
    Pack pack = foggy();
    pack.darkroom.enlarger.setting = {8, 11};  // away from the anchor
    pack.darkroom.enlarger.reciprocity = 0.95;
    const PaperModel paper = paper_model(pack);
    const Recipe recipe = at_grade(3);
    const WorkingCurve curve = working_curve(pack, recipe);
    for (const std::size_t i : {40, 66, 75, 90}) {
        const Seconds time{std::pow(10.0, curve.log_seconds[i])};
        const PrintModel print(paper, pack.darkroom.enlarger, print_steps(pack, paper, recipe, time), 1.0);
        EXPECT_NEAR(curve.density[i].value, print.patch({0}).density.value, kDensity) << curve.log_seconds[i];
    }
}

TEST(WorkingCurve, FogAndWhiteAreThoseOfTheSlips) {
    const WorkingCurve curve = working_curve(foggy(), at_grade(2));
    EXPECT_NEAR(curve.paper_white.value, 0.08, kDensity);
    EXPECT_NEAR(curve.fog.value, 0.4 - 0.08, kDensity);
}

TEST(WorkingCurve, AFreshPaperHasTheRangeOfItsGrade) {
    // Middles of the grades' limits, ANSI PH2.2-1966 (from memory); root finding is good to 1e-5.
    constexpr double kRange = 0.001;
    for (int grade = 0; grade <= 5; ++grade) {
        const auto curve = working_curve(Pack{}, at_grade(grade));
        ASSERT_TRUE(curve.iso_range);
        EXPECT_NEAR(curve.iso_range->value, iso_range_of_grade(grade), kRange) << "grade " << grade;
    }
}

TEST(WorkingCurve, FogLowersContrastAndBleachRaisesItAgain) {
    // Common practice, no source. Fog takes from the tonal range at its light end; bleach steepens.
    const auto tonal_range = [](const Pack& pack, const Recipe& recipe) {
        const auto curve = working_curve(pack, recipe);
        return curve.density.back().value - curve.density.front().value;
    };
    Recipe bleached = at_grade(2);
    bleached.bleach = ClearingPercent{100};
    EXPECT_LT(tonal_range(foggy(), at_grade(2)), tonal_range(Pack{}, at_grade(2)));
    EXPECT_LT(working_curve(foggy(), bleached).iso_range->value,
              working_curve(foggy(), at_grade(2)).iso_range->value);
}

TEST(WorkingCurve, BandsHoldTheCurveAndStayBetweenBorderAndBlack) {
    for (const double grade : {0.0, 2.0, 5.0}) {
        Recipe recipe = at_grade(grade);
        recipe.bleach = ClearingPercent{80};
        const WorkingCurve curve = working_curve(foggy(), recipe);
        for (const Interval& at : curve.density) {
            EXPECT_LE(at.low, at.value);
            EXPECT_GE(at.high, at.value);
            EXPECT_GE(at.low, curve.density.front().low - kDensity);
            EXPECT_LE(at.high, curve.density.back().high + kDensity);
        }
    }
}

TEST(WorkingCurve, WhatIsKnownExactlyHasNoBand) {
    const WorkingCurve curve = working_curve(certain(foggy()), at_grade(2));
    for (const Interval& at : curve.density) {
        EXPECT_EQ(at.low, at.value);
        EXPECT_EQ(at.high, at.value);
    }
}

TEST(WorkingCurve, PercentOfClearingWithoutFogIsRefused) {
    Recipe recipe = at_grade(2);
    recipe.bleach = ClearingPercent{100};
    EXPECT_THROW(static_cast<void>(working_curve(Pack{}, recipe)), Error);
}

// No print is lighter than its paper, and a bleach takes silver away, however fast it works.
TEST(WorkingCurve, BandsStayBetweenTheWhiteOfThePaperAndTheBlackBeforeTheBleach) {
    const double black = working_curve(foggy(), at_grade(2)).density.back().high;
    for (const double percent : {50.0, 100.0, 150.0, 400.0}) {
        Recipe bleached = at_grade(2);
        bleached.bleach = ClearingPercent{percent};
        const WorkingCurve curve = working_curve(foggy(), bleached);
        for (const Interval& at : curve.density) {
            EXPECT_GE(at.low, curve.paper_white.low - kDensity) << percent;
            EXPECT_LE(at.high, black + kDensity) << percent;
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
