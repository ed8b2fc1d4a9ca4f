// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The search for a recipe and what is said about its answer.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/schema.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

Proof proof_of(const Printing& printing, const RecipeSearch& search, const FoundRecipe& found) {
    return printing.proof(search.as_recipe(found),
                          time_giving(found.exposure, printing.pack().darkroom.enlarger));
}

// The cost of the cheapest recipe of a grid of everything, each at its starting exposure (exposures in 1/12
// stop), asked of Response, not of the search's own tables.
double brute_force(const Printing& printing, const Wanted& wanted, const SearchBounds& bounds) {
    const Pack& pack = printing.pack();
    const double mean = printing.frame().mean_transmitted(pack.darkroom.enlarger.callier);
    std::vector<double> log_light;
    for (const Tone& tone : wanted.tones)
        log_light.push_back(std::log10(transmitted(tone.density, mean, pack.darkroom.enlarger)));
    double least = 1e9;
    const double fresh = printing.target().exposure.value;
    for (double grade = bounds.softest; grade <= bounds.hardest + 1e-9; grade += 0.5) {
        PrintSteps steps;
        steps.exposures = {{filter_for(pack, printing.paper(), grade), Seconds{1}}};
        for (const double restrainer : bounds.restrainers)
            for (const double develop : bounds.develop_s) {
                steps.develop = {restrainer, develop, pack.development.nominal_c};
                const double clear = clearing_dose(printing.paper(), steps.develop).value_or(0);
                const double dearer = (restrainer > 0 ? kRestrainerCost : 0) +
                                      (develop < pack.development.nominal_s ? kShortDevelopmentCost : 0);
                for (double depth = 0; depth <= (clear > 0 ? bounds.most_clearing : 0); depth += 0.2) {
                    steps.finishing.bleach_dose = depth * clear;
                    const Response response(printing.paper(), pack.darkroom.enlarger, steps);
                    const double border = response.border().lab.l;
                    const MonotoneCurve lightness = response.lightness_between({fresh - 4}, {fresh + 1.5});
                    const Adaptation seen = Adaptation::between(border, wanted.white);
                    // Start and error by parabolas through the three nearest exposures.
                    std::vector<double> adapted, absolute;
                    for (double stops = -2; stops <= 4; stops += 1.0 / 12) {
                        double own = 0, plain = 0;
                        for (std::size_t i = 0; i < wanted.tones.size(); ++i) {
                            const double l = lightness(fresh + stops * std::log10(2) + log_light[i]);
                            own += wanted.tones[i].share * std::pow(seen.miss(l, wanted.lightness[i]), 2);
                            plain += wanted.tones[i].share * std::pow(l - wanted.lightness[i], 2);
                        }
                        adapted.push_back(own);
                        absolute.push_back(plain);
                    }
                    const auto start =
                        std::clamp<std::ptrdiff_t>(std::ranges::min_element(adapted) - adapted.begin(), 1,
                                                   std::ptrdiff_t(adapted.size()) - 2);
                    const auto slope = [&](const std::vector<double>& of) {
                        return (of[std::size_t(start + 1)] - of[std::size_t(start - 1)]) / 2;
                    };
                    const auto bend = [&](const std::vector<double>& of) {
                        return of[std::size_t(start + 1)] - 2 * of[std::size_t(start)] +
                               of[std::size_t(start - 1)];
                    };
                    const double beyond = std::clamp(-slope(adapted) / bend(adapted), -1.0, 1.0);
                    const double square = absolute[std::size_t(start)] + beyond * slope(absolute) +
                                          beyond * beyond * bend(absolute) / 2;
                    least = std::min(
                        least, std::sqrt(std::max(square, 0.0)) + dearer + (depth > 0 ? kBleachCost : 0));
                }
            }
    }
    return least;
}

// The search's tables against the model itself.
TEST(Start, QuickTablesSayWhatTheModelSays) {
    std::mt19937 random(11);
    for (int i = 0; i < 20; ++i) {
        const Printing printing(examples::random_pack(random), ordinary_frame());
        const RecipeSearch search(printing, as_fresh(printing));
        FoundRecipe found = search.best(usual_bounds(printing));
        constexpr double kTables = 0.05;  // L*, as quick_print.hpp states
        EXPECT_NEAR(found.lightness_error, proof_of(printing, search, found).lightness_error, kTables);
    }
}

TEST(Start, BestRecipeIsWithinATenthOfABruteForceSearch) {
    std::mt19937 random(5);
    std::uniform_real_distribution range(0.7, 1.5), thin(0.05, 0.4);
    double worst = -1e9;
    for (int i = 0; i < 100; ++i) {
        const Printing printing(examples::random_pack(random), ordinary_frame(thin(random), range(random)));
        Wanted wanted = as_fresh(printing);
        SearchBounds bounds = usual_bounds(printing);
        // Brute force is slow; one way of developing a pack and every sixth tone tell as much of the search.
        bounds.restrainers = {i % 2 == 0 ? 0.0 : 20.0};
        bounds.develop_s = {bounds.develop_s[std::size_t(i / 2) % 2]};
        Wanted sparse;
        sparse.white = wanted.white;
        for (std::size_t t = 0; t < wanted.tones.size(); t += 6) {
            sparse.tones.push_back(wanted.tones[t]);
            sparse.lightness.push_back(wanted.lightness[t]);
        }
        double area = 0;
        for (const Tone& tone : sparse.tones) area += tone.share;
        for (Tone& tone : sparse.tones) tone.share /= area;
        const double found = RecipeSearch(printing, sparse).best(bounds).cost;
        worst = std::max(worst, found - brute_force(printing, sparse, bounds));
    }
    std::printf("worst gap to brute force: %.3f L*\n", worst);
    EXPECT_LE(worst, 0.1);
}

// A print that the paper can make is asked for; the search must find its recipe.
TEST(Start, PlantedRecipesAreFound) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    for (const auto& [grade, percent, stops] :
         {std::tuple{1.0, 80.0, 1.0}, {3.0, 50.0, 0.5}, {2.0, 0.0, 0.0}}) {
        Recipe planted;
        planted.exposures = {{grade, Stops{stops}}};
        planted.bleach = ClearingPercent{percent};
        const Proof proof = printing.proof(planted, printing.target().time);
        const PrintModel print = printing.print(proof.steps);
        Wanted wanted{printing.tones(), {}};
        for (const Tone& tone : wanted.tones) wanted.lightness.push_back(print.patch(tone.density).lab.l);
        SearchBounds bounds = usual_bounds(printing);
        bounds.restrainers = {0};
        const RecipeSearch search(printing, wanted);
        const FoundRecipe found = search.best(bounds);
        EXPECT_LT(found.lightness_error, 0.25) << "all that kBleachCost could be saved on";
        EXPECT_NEAR(found.grade, grade, 0.35);
    }
}

// Common practice, no source: strong restrainer on light fog often leaves nothing for the bleach to do.
TEST(Start, LightFogUnderStrongRestrainerNeedsNoBleach) {
    const Printing printing(fogged_pack(0.08), ordinary_frame());
    const RecipeSearch search(printing, as_fresh(printing));
    SearchBounds bounds = usual_bounds(printing);
    const double with = search.best(bounds).lightness_error;
    bounds.most_clearing = 0;
    constexpr double kNothing = 0.5;  // L* rms: less than an eye tells between two prints side by side
    EXPECT_LT(search.best(bounds).lightness_error - with, kNothing);
}

TEST(Start, UnfoggedPaperNeedsNeither) {
    const Printing printing(fogged_pack(0), ordinary_frame());
    const RecipeSearch search(printing, as_fresh(printing));
    const FoundRecipe found = search.best(usual_bounds(printing));
    EXPECT_EQ(found.bleach_dose, 0);
    EXPECT_EQ(found.restrainer_ml_l, 0);
    EXPECT_NEAR(found.grade, printing.target().grade, 0.1);  // the rule of ISO 6846's introduction
    EXPECT_NEAR(found.exposure.value, printing.target().exposure.value, 0.01);
}

// Common practice, no source: about a stop more, and a softer filter, than the print without bleach.
TEST(Start, BleachWantsMoreLightAndASofterFilter) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    SearchBounds bounds = usual_bounds(printing);
    bounds.restrainers = {0};
    const RecipeSearch search(printing, as_fresh(printing));
    const FoundRecipe with = search.best(bounds);
    bounds.most_clearing = 0;
    const FoundRecipe without = search.best(bounds);
    ASSERT_GT(with.bleach_dose, 0);
    EXPECT_LT(with.grade, without.grade - 1);
    EXPECT_GT(with.exposure.value - printing.target().exposure.value, 0.3 * std::log10(2));
}

// Common practice, no source: "a start of grade 4 1/2, the best choice without bleach, is too hard after it,
// where 3 1/2 was right". Like "about a stop darker" it wants a starvation of 0.10 and more; the default,
// which spares the mid-tones, wants a filter that is softer still.
TEST(Start, WhereFourAndAHalfIsBestUnbleachedAboutThreeAndAHalfIsBestBleached) {
    const auto grades = [](double starvation) {
        Pack pack = fogged_pack(0.2);
        pack.bleach.starvation = starvation;
        const Printing printing(pack, ordinary_frame(0.15, 0.95));
        SearchBounds bounds = usual_bounds(printing);
        bounds.restrainers = {0};
        bounds.develop_s = {90};
        const RecipeSearch search(printing, as_fresh(printing));
        const FoundRecipe bleached = search.best(bounds);
        EXPECT_GT(bleached.bleach_dose, 0);
        bounds.most_clearing = 0;
        return std::pair(search.best(bounds).grade, bleached.grade);
    };
    const auto [unbleached, bleached] = grades(0.15);
    EXPECT_NEAR(unbleached, 4.5, 0.5);
    EXPECT_NEAR(bleached, 3.5, 1.25);
    EXPECT_LT(bleached, unbleached - 0.5);
    EXPECT_LT(grades(BleachRate{}.starvation).second, bleached);
}

// Common practice, no source: 60 s of development instead of 90 s is nearly the same after bleaching.
TEST(Start, ShorterDevelopmentIsNearlyTheSameAfterBleaching) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const RecipeSearch search(printing, as_fresh(printing));
    SearchBounds bounds = usual_bounds(printing);
    bounds.restrainers = {0};
    bounds.develop_s = {90};
    const FoundRecipe nominal = search.best(bounds);
    bounds.develop_s = {60};
    constexpr double kNearly = 1.0;  // L* rms: about what an eye tells between two prints side by side
    EXPECT_NEAR(search.best(bounds).lightness_error, nominal.lightness_error, kNearly);
}

TEST(Start, AnswerIsStableWhenTheScanIsHalvedOrNoisier) {
    const Pack pack = fogged_pack(0.35);
    const Printing whole(pack, ordinary_frame());
    // Half the pixels, and grain of 0.02 in density: the histogram blurred.
    std::vector<NegativeDensity> scale;
    Histogram halved, noisy;
    const Tones ordinary = ordinary_frame();
    for (const Tone& tone : ordinary.all()) {
        scale.push_back(tone.density);
        halved.push_back(std::uint64_t(5e5 * tone.share + 0.5));
    }
    for (std::size_t i = 0; i < scale.size(); ++i) {
        double sum = 0;
        for (int shift = -12; shift <= 12; ++shift) {
            const auto j =
                std::clamp<std::ptrdiff_t>(std::ptrdiff_t(i) + shift, 0, std::ptrdiff_t(scale.size()) - 1);
            sum += double(halved[std::size_t(j)]) * std::exp(-0.5 * std::pow(shift * 0.0029 / 0.02, 2));
        }
        noisy.push_back(std::uint64_t(sum));
    }
    const auto best = [&](const Tones& frame) {
        const Printing printing(pack, frame);
        return RecipeSearch(printing, as_fresh(printing)).best(usual_bounds(printing));
    };
    const FoundRecipe reference = best(ordinary_frame());
    for (const Histogram& counts : {halved, noisy}) {
        const FoundRecipe found = best(Tones(counts, scale));
        EXPECT_NEAR(found.exposure.value, reference.exposure.value, 0.05) << "a sixth of a stop";
        EXPECT_NEAR(found.grade, reference.grade, 0.3);
    }
}

TEST(Start, PlacedToneLandsWhereItWasPlaced) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const NegativeDensity at = printing.frame().quantile(0.95);
    for (const double above_white : {0.09, 0.2}) {
        const RecipeSearch search(printing, placed(printing, std::vector<PlacedTone>{{at, above_white}}));
        const Proof proof = proof_of(printing, search, search.best(usual_bounds(printing)));
        EXPECT_NEAR(printing.print(proof.steps).patch(at).density.value,
                    printing.pack().sheet.white_density + above_white, 0.02);
    }
}

TEST(Start, MatchingAPrintOfTheSameFrameFindsItsTones) {
    const Printing printing(fogged_pack(0.3), ordinary_frame());
    const PrintModel fresh = printing.fresh_print();
    std::vector<MatchedTone> print;
    for (const Tone& tone : printing.tones()) print.push_back({fresh.patch(tone.density).lab.l, tone.share});
    std::ranges::reverse(print);
    const Wanted wanted = matched(printing, print);
    for (std::size_t i = 0; i < wanted.lightness.size(); ++i)
        EXPECT_NEAR(wanted.lightness[i], printing.target().lightness[i], 0.8) << "one bin of the histogram";
}

// Closed form: where only the speed is in doubt, the exposure is in doubt by just as much and the bleach and
// the fresh print are not.
TEST(StartingPoint, DoubtAboutTheSpeedIsDoubtAboutTheExposure) {
    Pack pack = examples::certain(fogged_pack(0.35));
    SearchBounds bounds = usual_bounds(Printing(pack, ordinary_frame()));
    bounds.restrainers = {0};
    const auto answer = [&] {
        const Printing printing(pack, ordinary_frame());
        return starting_points(printing, as_fresh(printing), bounds);
    };
    const StartingPoints sure = answer();
    EXPECT_DOUBLE_EQ(sure.best.exposure_s.low, sure.best.exposure_s.high);
    EXPECT_EQ(sure.best.first_sheet_good, 1);

    for (const auto& row : pack_numbers())
        if (row.section == "speed" && row.of(pack) == pack.speed_log_s)
            pack.knowledge[row.name()] = {Origin::measured, 0.1};
    const StartingPoints rough = answer();
    EXPECT_NEAR(std::log10(rough.best.exposure_s.high / rough.best.exposure_s.value), 1.96 * 0.1, 0.005);
    EXPECT_NEAR(rough.best.bleach_s.high, rough.best.bleach_s.value, 1e-6);
    EXPECT_NEAR(rough.target.lights, 0, 0.02);
    // A sixth of a stop is 0.0502 in log10: erf(0.0502 / (0.1 sqrt 2)) = 0.384.
    EXPECT_NEAR(rough.best.first_sheet_good, 0.384, 0.01);
}

TEST(StartingPoint, FreshPrintCarriesTheDoubtsOfThePack) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const StartingPoints points = starting_points(printing, as_fresh(printing), usual_bounds(printing));
    EXPECT_GT(points.target.lights, 0.5);
    EXPECT_GT(points.target.darks, 0.5);
}

}  // namespace
}  // namespace fogproof::tests
