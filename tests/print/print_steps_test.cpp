// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A recipe meets a pack: clearing, steps, and the curve they make.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"
#include "support/examples.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using testing::AllOf;
using testing::HasSubstr;

constexpr double kRounding = 1e-9;  // tens of operations in double on numbers below 1000

// Through one grade at nominal development.
PrintSteps plain_steps(const Pack& pack, const PaperModel& paper, double grade) {
    Recipe recipe;
    recipe.exposures[0].grade = grade;
    return print_steps(pack, paper, recipe, Seconds{1});
}

// By its definition alone: silver left of the blank shows 0.02 above the fixed-only slip.
TEST(Clearing, DoseLeavesTheBlankTwoHundredthsAboveWhite) {
    for (const double fog : {0.03, 0.1, 0.35, 0.8}) {
        const Pack pack = fogged_pack(fog);
        const PaperModel paper = paper_model(pack);
        const DevelopStep step = develop_step(pack, {});
        const auto dose = clearing_dose(paper, step);
        ASSERT_TRUE(dose) << fog;
        const auto blank = Developer(paper.emulsion, step).developed(EaselLight{});
        const auto left = bleached(blank, paper.bleach.starvation, *dose).left;
        EXPECT_NEAR(paper.sheet.density({left}).value, pack.sheet.white_density + kClearWithin, 1e-8) << fog;
    }
}

TEST(Clearing, NothingToClearOnPaperWithoutFogOrAsGood) {
    for (const double fog : {0.0, 0.019}) {
        const Pack pack = fogged_pack(fog);
        EXPECT_FALSE(clearing_dose(paper_model(pack), develop_step(pack, {}))) << fog;
    }
    const Pack pack = fogged_pack(0.3);
    DevelopStep fixed_only = develop_step(pack, {});
    fixed_only.time_s = 0;
    EXPECT_FALSE(clearing_dose(paper_model(pack), fixed_only));
}

TEST(Clearing, TakesLongerForMoreFogAndShorterForRestrainedFog) {
    double before = 0;
    for (const double fog : {0.2, 0.35, 0.5}) {
        const Pack pack = fogged_pack(fog);
        const PaperModel paper = paper_model(pack);
        const double dose = clearing_dose(paper, develop_step(pack, {})).value();
        EXPECT_GT(dose, before);
        EXPECT_LT(clearing_dose(paper, {30, 90, 20}).value(), dose);
        before = dose;
    }
}

TEST(PrintSteps, AsksForAStartOnlyWhereStopsAreGiven) {
    Recipe recipe;
    EXPECT_TRUE(needs_start(recipe));
    recipe.exposures = {{0.0, Seconds{4}}, {5.0, Stops{1}}};
    EXPECT_TRUE(needs_start(recipe));
    recipe.exposures[1].amount = Seconds{7};
    EXPECT_FALSE(needs_start(recipe));
}

TEST(PrintSteps, TakesThePacksWayWhereTheRecipeIsSilent) {
    Pack pack = fogged_pack(0.3);
    pack.development.nominal_s = 75;
    pack.development.nominal_c = 22;
    pack.darkroom.bath.parts = 80;
    const PrintSteps steps = print_steps(pack, paper_model(pack), Recipe{}, Seconds{10});
    EXPECT_EQ(steps.develop.time_s, 75);
    EXPECT_EQ(steps.develop.temperature_c, 22);
    EXPECT_EQ(steps.develop.restrainer_ml_l, 0);
    EXPECT_EQ(steps.finishing.bleach_dose, 0);
    EXPECT_EQ(steps.finishing.redevelop.value, 0);
    EXPECT_EQ(steps.exposures.at(0).time.value, 10);
    EXPECT_EQ(bleach_bath(pack, {}).parts, 80);
    Recipe own;
    own.develop_s = 0;
    own.bleach_parts = 20;
    own.bleach_c = 25;
    EXPECT_EQ(develop_step(pack, own).time_s, 0);
    EXPECT_EQ(bleach_bath(pack, own).parts, 20);
    EXPECT_EQ(bleach_bath(pack, own).temperature_c, 25);
}

// No filter counts as grade 2 on variable-contrast paper: common practice, no source.
TEST(PrintSteps, WithoutAGradeVariablePaperIsGradeTwoAndGradedPaperItself) {
    const Pack variable = fogged_pack(0.2);
    const PaperModel paper = paper_model(variable);
    const Filter none = print_steps(variable, paper, Recipe{}, Seconds{1}).exposures[0].filter;
    const Filter two = filter_for(variable, paper, 2);
    EXPECT_EQ(none.blue, two.blue);
    EXPECT_EQ(none.green, two.green);
    Pack graded = variable;
    graded.contrast = Contrast::graded;
    EXPECT_EQ(print_steps(graded, paper_model(graded), Recipe{}, Seconds{1}).exposures[0].filter.green, 0);
}

TEST(PrintSteps, WeakerBathTakesTheSameDoseInMoreTime) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    Recipe strong, weak;
    strong.bleach = weak.bleach = ClearingPercent{100};
    strong.bleach_parts = 50;
    weak.bleach_parts = 101;  // half the strength, at exponent 1
    const double soak = pack.bleach.soak_s;
    EXPECT_NEAR(bleach_step(pack, paper, weak).time.value - soak,
                2 * (bleach_step(pack, paper, strong).time.value - soak), kRounding * 100);
    EXPECT_NEAR(print_steps(pack, paper, weak, Seconds{1}).finishing.bleach_dose,
                print_steps(pack, paper, strong, Seconds{1}).finishing.bleach_dose, kRounding);
}

TEST(PrintSteps, ContradictionsAreRefusedWithAWayOut) {
    Pack pack = fogged_pack(0.0);
    Recipe recipe;
    recipe.bleach = ClearingPercent{100};
    EXPECT_EQ(refusal(Fault::config, [&] { (void)print_steps(pack, paper_model(pack), recipe, Seconds{1}); }),
              "bleach: 100 % of clearing, but this sheet has no fog to clear; give seconds (40s)");
    recipe.bleach = Seconds{40};
    EXPECT_NO_THROW((void)print_steps(pack, paper_model(pack), recipe, Seconds{1}));

    pack.darkroom.anchored = false;
    for (const bool flash : {false, true}) {
        Recipe timed;
        if (flash)
            timed.flashes = {{0.0, Seconds{1}}};
        else
            timed.exposures = {{2.0, Seconds{12}}};
        EXPECT_THAT(
            refusal(Fault::config, [&] { (void)print_steps(pack, paper_model(pack), timed, Seconds{1}); }),
            AllOf(HasSubstr("without an anchor"), HasSubstr("--black-time")));
    }
    Recipe hard;
    hard.exposures[0].grade = 5.5;
    EXPECT_THAT(refusal(Fault::usage, [&] { (void)print_steps(pack, paper_model(pack), hard, Seconds{1}); }),
                HasSubstr("grade 5.5; this pack has 00, 0 to 5"));
}

TEST(Response, RunsFromTheBorderToFullBlack) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    const Response response(paper, pack.darkroom.enlarger, plain_steps(pack, paper, 2));
    EXPECT_EQ(response.border().density, response.minimum());
    EXPECT_NEAR(response.minimum().value, pack.blank_density, 1e-8);  // root finders of the paper model
    EXPECT_NEAR(response.maximum().value, pack.black_density, 1e-8);
    EXPECT_NEAR(response.density({-6}).value, pack.blank_density, 1e-6)
        << "the foot of a normal distribution";
    EXPECT_NEAR(response.density({8}).value, pack.black_density, 1e-6);
}

// Limits of the grades: ANSI PH2.2-1966, inner limits from memory; ends 0.50 and 1.70, Focal Encyclopedia of
// Photography, p. 679. Each grade of fresh paper must fall within its own.
TEST(Response, FreshPaperHasTheRangeOfItsGrade) {
    constexpr double kLimits[] = {170, 140, 115, 95, 80, 65, 50};
    const Pack pack = fogged_pack(0);
    const PaperModel paper = paper_model(pack);
    for (int grade = 0; grade <= 5; ++grade) {
        const auto numbers =
            Response(paper, pack.darkroom.enlarger, plain_steps(pack, paper, grade)).numbers();
        ASSERT_TRUE(numbers) << grade;
        EXPECT_LT(numbers->iso_range, kLimits[grade]);
        EXPECT_GT(numbers->iso_range, kLimits[grade + 1]);
        // M, the speed point of ISO 6846 (from memory), stays where the pack has it, but for hard filters.
        EXPECT_NEAR(numbers->speed.value, pack.speed_log_s - pack.filter_set.speed(grade), 1e-3)
            << "the filters' promise, " << grade;
        EXPECT_NEAR(Response(paper, pack.darkroom.enlarger, plain_steps(pack, paper, grade))
                        .density(numbers->speed)
                        .value,
                    pack.sheet.white_density + 0.60, 1e-6);
    }
}

// Average gradient between T and S, (0.90 Dn - 0.04) / LER: arithmetic from the definitions of ISO 6846.
double average_gradient(const Response& response) {
    const double net = response.maximum().value - response.minimum().value;
    return 100 * (0.90 * net - 0.04) / response.numbers().value().iso_range;
}

TEST(Response, FogLowersTheGradientUntilTheCurveHasNoNumbers) {
    double before = 1e9;
    for (const double fog : {0.0, 0.3, 0.6, 0.9}) {
        const Pack pack = fogged_pack(fog);
        const PaperModel paper = paper_model(pack);
        const double now =
            average_gradient(Response(paper, pack.darkroom.enlarger, plain_steps(pack, paper, 2)));
        EXPECT_LT(now, before) << fog;
        before = now;
    }
    const Pack spoilt = fogged_pack(1.6);  // net density below 0.60/0.90
    const PaperModel paper = paper_model(spoilt);
    EXPECT_FALSE(Response(paper, spoilt.darkroom.enlarger, plain_steps(spoilt, paper, 2)).numbers());
}

// What the shortcut rests on: a print's tone is the curve's at seconds times transmittance.
TEST(Response, IsThePrintAtEveryExposureAndDensity) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    Recipe recipe;
    recipe.exposures = {{0.0, Seconds{4}}, {5.0, Seconds{9}}};
    recipe.flashes = {{0.0, Seconds{0.3}}};
    recipe.bleach = ClearingPercent{80};
    const PrintSteps steps = print_steps(pack, paper, recipe, std::nullopt);
    Enlarger enlarger = pack.darkroom.enlarger;
    enlarger.flare = 0;
    const Response response(paper, enlarger, steps);
    const PrintModel print(paper, enlarger, steps, 0);
    for (double density = 0; density < 3; density += 0.25)
        EXPECT_NEAR(response.density({-density}).value, print.patch({density}).density.value, kRounding);
}

TEST(Response, FlashLiftsTheFootAndLeavesTheShoulder) {
    const Pack pack = fogged_pack(0);
    const PaperModel paper = paper_model(pack);
    PrintSteps steps = plain_steps(pack, paper, 2);
    const Response plain(paper, pack.darkroom.enlarger, steps);
    steps.flashes = {{filter_for(pack, paper, 2), Seconds{1}}};
    const Response flashed(paper, pack.darkroom.enlarger, steps);
    EXPECT_GT(flashed.minimum(), plain.minimum());
    EXPECT_EQ(flashed.border().density, plain.border().density) << "the blades shade the border";
    EXPECT_NEAR(flashed.maximum().value, plain.maximum().value, kRounding);
    // Light is light: the flash's second stands for one of the exposure's. So a tone near the foot needs less
    // by a larger factor than one near the shoulder, and the paper takes a longer negative.
    for (const double seconds : {1.1, 2.0, 5.0, 20.0})
        EXPECT_NEAR(flashed.density({std::log10(seconds - 1)}).value,
                    plain.density({std::log10(seconds)}).value, kRounding);
}

TEST(Response, TabulatedLightnessIsWithinAHundredth) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    for (const double grade : {0.0, 5.0}) {
        PrintSteps steps = plain_steps(pack, paper, grade);
        steps.finishing.bleach_dose = 1.5 * clearing_dose(paper, steps.develop).value();
        const Response response(paper, pack.darkroom.enlarger, steps);
        const MonotoneCurve lightness = response.lightness_between({-2}, {3});
        double worst = 0;
        for (double log_h = -2; log_h <= 3; log_h += 0.0037)
            worst = std::max(worst, std::abs(lightness(log_h) - response.patch({log_h}).lab.l));
        EXPECT_LE(worst, 0.01) << "as response.hpp promises; grade " << grade;
    }
}

TEST(PrintSteps, WhatACallerLeavesOutIsAskedFor) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    EXPECT_THAT(refusal(Fault::usage, [&] { static_cast<void>(print_steps(pack, paper, {}, std::nullopt)); }),
                HasSubstr("a starting exposure"));
    const Seconds two[] = {Seconds{4}, Seconds{8}};
    EXPECT_THAT(refusal(Fault::usage, [&] { static_cast<void>(timed_steps(pack, paper, {}, two)); }),
                AllOf(HasSubstr("2 times"), HasSubstr("as many as exposures, 1")));
    EXPECT_EQ(timed_steps(pack, paper, {}, std::span(two).first(1)).exposures.front().time.value, 4);
}

}  // namespace
}  // namespace fogproof::tests
