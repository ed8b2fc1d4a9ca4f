// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What must hold for any pack under any way of working: identities and bounds that follow from the laws
// alone, tried on five hundred random packs and recipes.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/schema.hpp"
#include "print/clearing.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr int kPacks = 500;
// Density or L*: rounding of some tens of operations on numbers below 100, with three decimals to spare.
constexpr double kPackRounding = 1e-9;

// One random pack, worked in one random way.
struct Case {
    Pack pack;
    PaperModel paper;
    Recipe recipe;
    PrintSteps steps;
    std::string seed;

    [[nodiscard]] PrintModel print(PrintSteps of) const {
        return {paper, pack.darkroom.enlarger, std::move(of), 0.05};
    }
    [[nodiscard]] PrintModel print() const { return print(steps); }
};

Recipe random_recipe(std::mt19937& random, const Pack& pack, const PaperModel& paper) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution(low, high)(random);
    };
    const auto sometimes = [&](double share) { return std::bernoulli_distribution(share)(random); };
    const auto grades = grades_of(pack, paper);
    const auto grade = [&] { return between(grades.front(), grades.back()); };
    Recipe recipe;
    recipe.exposures = {{grade(), Seconds{between(1, 60)}}};
    if (sometimes(0.3)) recipe.exposures.push_back({grade(), Seconds{between(1, 60)}});
    if (sometimes(0.2)) recipe.flashes = {{grade(), Seconds{between(0.05, 1)}}};
    if (sometimes(0.4)) recipe.restrainer_ml_l = between(0, 80);
    if (sometimes(0.3)) recipe.develop_s = between(30, 300);
    if (sometimes(0.7)) recipe.bleach = Seconds{between(0, 200)};
    if (sometimes(0.3)) recipe.bleach_parts = between(20, 200);
    if (sometimes(0.3)) recipe.redevelop_s = between(0, 120);
    return recipe;
}

// Three quarters of the packs depart from the laws, up to four times as far as papers usually do.
Pack departing(Pack pack, unsigned seed) {
    std::mt19937 random(seed + 100000);
    std::normal_distribution<> usual;
    for (const auto& row : pack_numbers())
        if (is_departure(row) && applies(pack, row))
            row.in(pack) =
                std::clamp(double(seed % 4) / 2 * row.doubt * usual(random), row.minimum, row.maximum);
    return pack;
}

std::vector<Case> random_cases() {
    std::vector<Case> cases;
    for (unsigned seed = 1; seed <= kPacks; ++seed) {
        std::mt19937 random(seed);
        const Pack pack = departing(examples::random_pack(random), seed);
        const PaperModel paper = paper_model(pack);
        const Recipe recipe = random_recipe(random, pack, paper);
        cases.push_back({pack, paper, recipe, print_steps(pack, paper, recipe, std::nullopt),
                         "seed " + std::to_string(seed)});
    }
    return cases;
}

const std::vector<Case>& cases() {
    static const std::vector<Case> all = random_cases();
    return all;
}

// Clear-film light through the recipe's first filter, from none that shows to more than enough.
std::vector<EaselLight> rising_light(const Case& each) {
    const Filter filter = each.steps.exposures.front().filter;
    std::vector<EaselLight> light{{0, 0}};
    for (double log_h = -3; log_h <= 4; log_h += 0.05) {
        const double h = std::pow(10.0, log_h);
        light.push_back({h * filter.blue, h * filter.green});
    }
    return light;
}

// Holds in each band of the spectrum, not only in the sum: the bleach takes a smaller share s of more silver,
// so its warm tone q1 fades with more light, but by less than the silver grows as long as
// q1 |ln(380/550)| / 4 < 1; stain grows with silver.
TEST(EveryPack, MoreLightNeverLightens) {
    for (const Case& each : cases()) {
        const PrintModel print = each.print();
        Patch before = print.border();
        for (const EaselLight& light : rising_light(each)) {
            const Patch now = print.lit(light);
            ASSERT_GE(now.density.value, before.density.value - kPackRounding) << each.seed;
            ASSERT_LE(now.lab.l, before.lab.l + kPackRounding) << each.seed;
            before = now;
        }
    }
}

TEST(EveryPack, DenserNegativesNeverPrintDarker) {
    for (const Case& each : cases()) {
        const PrintModel print = each.print();
        double before = print.patch({-0.3}).density.value;
        for (double density = -0.25; density <= 4; density += 0.05) {
            const double now = print.patch({density}).density.value;
            ASSERT_LE(now, before + kPackRounding) << each.seed;
            before = now;
        }
    }
}

// Without a second developer. Stain darkens, but at 420 nm, where it is deepest, by at most 0.08 of the
// silver it stands for (these packs), while that silver's own share there is 1 - q1 |ln(420/550)| > 0.8.
TEST(EveryPack, MoreBleachNeverDarkens) {
    constexpr double kDoses[] = {0, 0.003, 0.01, 0.03, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2, 4};
    for (const Case& each : cases()) {
        PrintSteps steps = each.steps;
        steps.finishing.redevelop = {0};
        const auto light = rising_light(each);
        for (std::size_t i = 0; i < light.size(); i += 12) {
            steps.finishing.bleach_dose = 0;
            Patch before = each.print(steps).lit(light[i]);
            for (const double dose : kDoses) {
                steps.finishing.bleach_dose = dose;
                const Patch now = each.print(steps).lit(light[i]);
                if (dose > 0 && before.silver.left.value > 0) {
                    ASSERT_LT(now.silver.left.value, before.silver.left.value) << each.seed;
                }
                ASSERT_LE(now.density.value, before.density.value + kPackRounding) << each.seed;
                ASSERT_GE(now.lab.l, before.lab.l - kPackRounding) << each.seed;
                before = now;
            }
        }
    }
}

TEST(EveryPack, PrintsLieBetweenPaperWhiteAndBlack) {
    for (const Case& each : cases()) {
        const PrintModel print = each.print();
        const double white = print.fixed_only().density.value;
        EXPECT_NEAR(white, each.pack.sheet.white_density, kPackRounding) << each.seed;
        PrintSteps plain = each.steps;
        plain.develop = {0, each.pack.development.nominal_s, each.pack.development.nominal_c};
        plain.finishing.bleach_dose = 0;
        const PrintModel nominal = each.print(plain);
        // Every grain developed: nothing that this developer gives is darker, bleached or not. Silver that
        // came back covers more than it did on some packs.
        const double most = Developer(each.paper.emulsion, each.steps.develop).max_density().value *
                            std::max(1.0, each.pack.redevelop.covering);
        const double black = each.paper.sheet.density({{most}}).value;
        for (const EaselLight& light : rising_light(each)) {
            const Patch patch = print.lit(light), before = nominal.lit(light);
            for (const double density : {patch.density.value, before.density.value})
                ASSERT_GE(density, white - kPackRounding) << each.seed;
            ASSERT_LE(patch.density.value, black + kPackRounding) << each.seed;
            // The root finder that set the black stops at 48 bits.
            ASSERT_LE(before.density.value, each.pack.black_density + 1e-8) << each.seed;
            ASSERT_GT(patch.lab.l, 0) << each.seed;
            ASSERT_LE(patch.lab.l, 100 + kPackRounding) << each.seed;
        }
    }
}

TEST(EveryPack, NoBleachTimeAndNoBleachAreTheSame) {
    for (const Case& each : cases()) {
        Recipe none = each.recipe;
        none.bleach = Seconds{0};
        PrintSteps without = each.steps;
        without.finishing.bleach_dose = 0;
        without.finishing.redevelop = {0};
        std::vector<Recipe> ways{none, none, none};
        ways[1].bleach = ClearingPercent{0};
        ways[2].bleach = Seconds{each.pack.bleach.soak_s};  // the bath has not reached the silver yet
        for (const Recipe& way : ways) {
            const PrintSteps steps = print_steps(each.pack, each.paper, way, std::nullopt);
            EXPECT_EQ(steps.finishing.bleach_dose, 0) << each.seed;
            for (const EaselLight light : {EaselLight{0, 0}, {1, 1}, {50, 20}}) {
                const Patch is = each.print(steps).lit(light), was = each.print(without).lit(light);
                EXPECT_EQ(is.silver.left, was.silver.left) << each.seed;
                EXPECT_EQ(is.silver.back.value, 0)
                    << "nothing was bleached that could come back, " << each.seed;
                EXPECT_EQ(is.lab.l, was.lab.l) << each.seed;
            }
        }
    }
}

TEST(EveryPack, OneStopMoreIsTwiceTheTime) {
    for (const Case& each : cases()) {
        Recipe stops = each.recipe, seconds = each.recipe;
        stops.exposures = {each.recipe.exposures.front()};
        seconds.exposures = stops.exposures;
        const Seconds start = std::get<Seconds>(stops.exposures[0].amount);
        stops.exposures[0].amount = Stops{1};
        seconds.exposures[0].amount = Seconds{2 * start.value};
        const auto a = print_steps(each.pack, each.paper, stops, start);
        const auto b = print_steps(each.pack, each.paper, seconds, std::nullopt);
        EXPECT_DOUBLE_EQ(a.exposures[0].time.value, b.exposures[0].time.value) << each.seed;
        EXPECT_NEAR(each.print(a).patch({0.6}).lab.l, each.print(b).patch({0.6}).lab.l, kPackRounding)
            << each.seed;
    }
}

TEST(EveryPack, PercentOfClearingAndSecondsAreOneAndTheSame) {
    int fogged = 0;
    for (const Case& each : cases()) {
        const auto clearing = clearing_dose(each.paper, develop_step(each.pack, each.recipe));
        if (!clearing) continue;
        ++fogged;
        for (const double percent : {10.0, 100.0, 250.0}) {
            Recipe by_percent = each.recipe, by_time = each.recipe;
            by_percent.bleach = ClearingPercent{percent};
            by_time.bleach = bleach_step(each.pack, each.paper, by_percent).time;
            const auto a = print_steps(each.pack, each.paper, by_percent, std::nullopt);
            const auto b = print_steps(each.pack, each.paper, by_time, std::nullopt);
            EXPECT_EQ(a.finishing.bleach_dose, b.finishing.bleach_dose) << each.seed;
            EXPECT_NEAR(100 * a.finishing.bleach_dose / *clearing, percent, kPackRounding * percent)
                << each.seed;
        }
        // What "cleared" promises: the blank ends at the stated distance from the fixed-only slip, in silver.
        PrintSteps cleared = each.steps;
        cleared.finishing.bleach_dose = *clearing;
        cleared.finishing.redevelop = {0};
        const LayerDensity left = each.print(cleared).border().silver.left;
        EXPECT_NEAR(each.paper.sheet.density({left}).value, each.paper.sheet.white().value + kClearWithin,
                    1e-8)
            << each.seed;
    }
    EXPECT_GT(fogged, kPacks / 2) << "nearly all dice are free of fog";
}

std::vector<double> differences(const std::vector<double>& values) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < values.size(); ++i) steps.push_back(values[i] - values[i - 1]);
    return steps;
}

// How often the sign changes; values within `least` of nothing count for neither.
int turns(const std::vector<double>& values, double least) {
    int count = 0;
    double last = 0;
    for (const double value : values) {
        if (std::abs(value) < least) continue;
        if (value * last < 0) ++count;
        last = value;
    }
    return count;
}

// A wave in the slope would print as a band across a sky. The fog-free curve of a filter rises ever faster up
// to its steepest place and ever slower after it. How sharply it bends has a hill before that place and a
// hollow after it, at most one more of each where grains that see blue and grains that see green part
// company. Papers that depart from the laws may bend oftener.
TEST(EveryPack, NoRippleShowsInTheSlopeOfAnyGrade) {
    constexpr double kStep = 0.02;
    // D: rounding of densities below 3 is about 1e-12; a wave of the third difference is told from there on
    // up.
    constexpr double kFlat = 1e-10, kFlatBend = 1e-7;
    for (const Case& each : cases()) {
        if (!each.pack.grains.departure.is_nil()) continue;
        PaperModel fogless = each.paper;
        fogless.emulsion.fog.share = 0;
        for (const double grade : grades_of(each.pack, each.paper)) {
            const Filter filter = filter_for(each.pack, each.paper, grade);
            PrintSteps steps;
            steps.develop = {0, each.pack.development.nominal_s, each.pack.development.nominal_c};
            const PrintModel print(fogless, each.pack.darkroom.enlarger, steps, 0);
            std::vector<double> density;
            for (double log_h = -3; log_h <= 4; log_h += kStep) {
                const double h = std::pow(10.0, log_h);
                density.push_back(print.lit({h * filter.blue, h * filter.green}).density.value);
            }
            const auto bend = differences(differences(density));
            EXPECT_EQ(turns(bend, kFlat), 1) << each.seed << " grade " << grade;
            EXPECT_LE(turns(differences(bend), kFlatBend), 4) << each.seed << " grade " << grade;
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
