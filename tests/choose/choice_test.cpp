// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Recipes chosen with everything in doubt that a pack leaves open, and what is told of them. Held against
// plain draws of the standard library's generator, printed by the model tone by tone.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

void doubt(Pack& pack, const std::string& name, double deviation) {
    pack.knowledge[name] = {Origin::measured, deviation};
}

// What is wanted as it stands, whatever the paper was.
Wanted standing(const Printing& printing) {
    Wanted wanted = as_fresh(printing);
    wanted.fresh = false;
    wanted.white.reset();
    return wanted;
}

// A pack of the same doubts, by numbers that nobody's draws share.
Pack another(const Pack& pack, std::mt19937& random) {
    for (;;) try {
            Pack other = pack;
            for (const auto& row : pack_numbers()) {
                const double deviation = deviation_of(pack, row), value = row.of(pack);
                if (deviation <= 0 || !is_listed(pack, row)) continue;
                const double score = std::normal_distribution<>()(random);
                row.in(other) = std::clamp(goes_by_factor(row) && value > 0
                                               ? value * std::pow(1 + deviation / value, score)
                                               : value + score * deviation,
                                           row.minimum, row.maximum);
            }
            static_cast<void>(paper_model(other));
            return other;
        } catch (const Error&) {
        }
}

// rms L* of the told seconds on another paper.
double comes_out(const Printing& printing, const Wanted& wanted, const StartingPoint& point,
                 const Pack& pack) {
    const PaperModel paper = paper_model(pack);
    Recipe recipe = point.recipe;
    recipe.bleach = point.proof.bleach;
    const PrintModel print(paper, pack.darkroom.enlarger,
                           timed_steps(pack, paper, recipe, point.proof.exposures),
                           printing.frame().mean_transmitted(pack.darkroom.enlarger.callier));
    return miss_of(wanted, print.for_many_patches()).lightness;
}

}  // namespace

TEST(Choice, WhatIsToldAsExpectedIsWhatComesOutOnAverage) {
    Pack pack = examples::certain(fogged_pack(0.35));
    pack.filter_set.hard_loss = 0;  // matched in speed throughout
    doubt(pack, "speed.log_seconds", 0.06);
    doubt(pack, "bleach.per_second", 0.3 * pack.bleach.per_second);
    doubt(pack, "grains.spread", 0.015);
    doubt(pack, "restrainer.half_ml_l", 5);
    doubt(pack, "paper.black", 0.05);
    const Printing printing(pack, ordinary_frame());
    const Wanted wanted = standing(printing);
    const StartingPoints points = starting_points(printing, wanted, usual_bounds(printing));
    std::mt19937 random(3);
    for (const StartingPoint& point : {points.best, *points.unbleached}) {
        double mean = 0;
        int inside = 0;
        constexpr int kPapers = 400;
        for (int i = 0; i < kPapers; ++i) {
            const double off = comes_out(printing, wanted, point, another(pack, random));
            mean += off / kPapers;
            inside += off >= point.lightness_error.low && off <= point.lightness_error.high;
        }
        // 64 papers tell a mean distance to a tenth of its spread, which is about half of it.
        EXPECT_NEAR(point.lightness_error.value / mean, 1, 0.15);
        EXPECT_GT(inside, 0.91 * kPapers);
        EXPECT_LT(inside, 0.995 * kPapers);
        EXPECT_GT(point.lightness_error.value, 1.2 * point.found.lightness_error)
            << "on the paper as described it comes closer than it may be expected to";
        EXPECT_LT(point.lightness_error_after_strip, point.lightness_error.value);
    }
}

// A pack of which nothing is in doubt leaves nothing to expect but the model's own distance.
TEST(Choice, ACertainPackIsExpectedToComeOutAsItsModelSays) {
    const Printing printing(examples::certain(fogged_pack(0.3)), ordinary_frame());
    const StartingPoint best = starting_points(printing, as_fresh(printing), usual_bounds(printing)).best;
    constexpr double kTables = 0.3;  // L*, as quick_print.hpp states of coarse ones
    EXPECT_NEAR(best.lightness_error.value, best.found.lightness_error, kTables);
    EXPECT_NEAR(best.lightness_error.low, best.lightness_error.high, 1e-6);
}

TEST(Choice, NoBleachIsTheBetterBetWhereNobodyKnowsItsRate) {
    const auto bleach = [](double relative) {
        Pack pack = examples::certain(fogged_pack(0.2));
        doubt(pack, "bleach.per_second", relative * pack.bleach.per_second);
        const Printing printing(pack, ordinary_frame());
        SearchBounds bounds = usual_bounds(printing);
        bounds.restrainers = {0};
        return starting_points(printing, as_fresh(printing), bounds).best.bleach_s.value;
    };
    EXPECT_GT(bleach(0.02), 0);
    EXPECT_EQ(bleach(30), 0) << "a rate that may be thirty times as high or as low";
}

// A dose that nobody read is left for one without doubt, though the likeliest paper would be closer with it.
TEST(Choice, ARecipeStaysWhereItIsKnown) {
    const auto restrainer = [](double half_in_doubt, double loss_in_doubt) {
        Pack pack = examples::certain(fogged_pack(0.15));
        doubt(pack, "restrainer.half_ml_l", half_in_doubt);
        doubt(pack, "restrainer.speed_loss", loss_in_doubt);
        const Printing printing(pack, ordinary_frame());
        SearchBounds bounds = usual_bounds(printing);
        bounds.most_clearing = 0;
        return starting_points(printing, as_fresh(printing), bounds).best.found.restrainer_ml_l;
    };
    EXPECT_EQ(restrainer(0.1, 0.005), 30);
    EXPECT_LT(restrainer(10, 6), 20);
}

TEST(Choice, WhatIsDecidedIsKept) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    SearchBounds bounds = usual_bounds(printing);
    bounds.restrainers = {7};
    bounds.develop_s = {120};
    bounds.softest = bounds.hardest = 3;
    bounds.bleach = Seconds{40};
    const StartingPoints points = starting_points(printing, as_fresh(printing), bounds);
    EXPECT_EQ(points.best.found.restrainer_ml_l, 7);
    EXPECT_EQ(points.best.found.develop_s, 120);
    EXPECT_EQ(points.best.found.grade, 3);
    EXPECT_NEAR(points.best.bleach_s.value, 40, 1e-6);
    EXPECT_EQ(points.by_grade.size(), 1u);
    EXPECT_FALSE(points.unbleached) << "the bleach was decided";
    bounds.bleach = ClearingPercent{80};
    EXPECT_NEAR(starting_points(printing, as_fresh(printing), bounds).best.proof.clearing_percent.value(), 80,
                1e-6);
}

TEST(Choice, PercentOfClearingWithoutFogAreRefused) {
    const Printing printing(fogged_pack(0), ordinary_frame());
    SearchBounds bounds = usual_bounds(printing);
    bounds.bleach = ClearingPercent{80};
    EXPECT_THROW(static_cast<void>(starting_points(printing, as_fresh(printing), bounds)), Error);
}

}  // namespace fogproof::tests
