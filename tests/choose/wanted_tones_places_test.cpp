// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Fog of the edges and burns through other filters, counted by starting exposures, searches and draws: where
// they are the same all over the frame, each is something that is known without places.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "choose/drawn_paper.hpp"
#include "choose/printing.hpp"
#include "choose/recipe_search.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/recipes.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::ordinary_frame;

constexpr double kSameLogTime = 0.002;       // a hundredth of a stop; curves are tabulated every 0.015
constexpr double kSameLightness = 0.15;      // rms L* by the tables of a search and by the model
constexpr double kSamePatchLightness = 0.4;  // of one tone by the coarse tables of a draw

Pack printable_pack(std::mt19937& random) {
    Pack pack = examples::random_pack(random);
    pack.darkroom.anchored = true;
    pack.contrast = Contrast::variable;
    return pack;
}

// Tones are meant as they stand: to which white an eye adapts on an unevenly fogged sheet nobody knows.
Wanted wanted_of(const Printing& printing) {
    Wanted wanted = printing.fresh();
    wanted.white.reset();
    wanted.fresh = false;
    return wanted;
}

// The ordinary frame's tones, alternately at two places of these levels.
PlacedTones alternating(std::vector<double> one, std::vector<double> other) {
    constexpr double kMany = 1e7;  // pixels
    std::vector<NegativeDensity> scale;
    Histogram counts[2];
    const Tones frame = ordinary_frame();
    for (const Tone& tone : frame.all()) {
        counts[scale.size() % 2].push_back(std::uint64_t(kMany * tone.share));
        counts[1 - scale.size() % 2].push_back(0);
        scale.push_back(tone.density);
    }
    counts[0].insert(counts[0].end(), counts[1].begin(), counts[1].end());
    return {Tones(counts[0], scale), {std::move(one), std::move(other)}};
}

FoundRecipe recipe_at(double grade, double dose, const Pack& pack, Seconds about) {
    return {grade,
            0,
            dose,
            exposure_of(std::log10(about.value), pack.darkroom.enlarger),
            0,
            0,
            pack.development.nominal_s,
            dose};
}

TEST(CountedPlaces, EvenFogOfTheEdgesIsThePackOfThatFog) {
    std::mt19937 random(29);
    for (int each = 0; each < 6; ++each) {
        Pack edged = printable_pack(random), fogged = edged;
        edged.edge_fog = {0.15, 15, "even.png"};
        fogged.blank_density += 0.15;
        Printing by_edge(edged, ordinary_frame());
        const Printing as_a_whole(fogged, ordinary_frame());
        by_edge.count_places(alternating({1}, {1}));
        const Wanted wanted = wanted_of(as_a_whole);
        const Recipe recipe = recipe_of(2, Seconds{20});
        const Seconds start = as_a_whole.starting_exposure(recipe, wanted);
        EXPECT_NEAR(std::log10(by_edge.starting_exposure(recipe, wanted).value), std::log10(start.value),
                    kSameLogTime);

        const RecipeSearch search(by_edge, by_edge.in_places(wanted, {})), other(as_a_whole, wanted);
        FoundRecipe found = recipe_at(2, 0.2, edged, start), same = found;
        search.settle(found);
        other.settle(same);
        EXPECT_NEAR(found.exposure.value, same.exposure.value, kSameLogTime);
        EXPECT_NEAR(found.lightness_error, same.lightness_error, kSameLightness);

        const ToldRecipe told{2, 0, edged.development.nominal_s, {10}, {20}, 0.2};
        DrawnPaper drawn({edged, 0, 0, 0}, by_edge, gathered(by_edge.in_places(wanted, {}), 40),
                         ReadWays(edged), std::nullopt);
        DrawnPaper plain({fogged, 0, 0, 0}, as_a_whole, gathered(wanted, 40), ReadWays(fogged), std::nullopt);
        const auto misses = drawn.misses(told), expected = plain.misses(told);
        ASSERT_EQ(misses.size(), expected.size());
        for (std::size_t i = 0; i < misses.size(); ++i)
            EXPECT_NEAR(misses[i], expected[i], kSamePatchLightness);
    }
}

TEST(CountedPlaces, FogMovesTheStartOfEveryCommand) {
    std::mt19937 random(31);
    Pack pack = printable_pack(random);
    pack.edge_fog = {0.3, 15, "even.png"};
    Printing printing(pack, ordinary_frame());
    const Recipe recipe = recipe_of(2, Seconds{0});
    const double uncounted = printing.proof(recipe).exposures.front().value;
    printing.count_places(alternating({1}, {0.6}));
    const double counted = printing.proof(recipe).exposures.front().value;
    EXPECT_LT(counted, 0.98 * uncounted) << "a darker sheet is exposed less for the same tones";
    EXPECT_DOUBLE_EQ(counted, printing.starting_exposure(recipe, printing.fresh()).value);
}

TEST(CountedPlaces, ABurnThroughAnotherFilterIsASplitExposureOfThatPlace) {
    std::mt19937 random(37);
    for (int each = 0; each < 6; ++each) {
        Pack pack = printable_pack(random);
        pack.darkroom.enlarger.reciprocity = each % 2 == 0 ? 1 : 0.9;
        Printing printing(pack, ordinary_frame());
        printing.count_places(alternating({1}, {1}));
        const Wanted wanted = wanted_of(printing);
        Recipe burnt = recipe_of(3, Seconds{20});
        LocalWork burn;
        burn.kind = LocalWork::Kind::burn;
        burn.amount = Stops{1};
        burn.grade = 0.5;
        burnt.local = {burn};
        // One stop of all exposures is as long again, and here through the other filter.
        Recipe split = recipe_of(3, Seconds{20});
        split.exposures.push_back({0.5, Stops{0}});
        const Seconds start = printing.starting_exposure(split, wanted);
        const PrintSteps steps = print_steps(pack, printing.paper(), burnt, start);
        const Wanted counted = printing.in_places(wanted, steps);
        EXPECT_NEAR(std::log10(printing.starting_exposure(burnt, counted).value), std::log10(start.value),
                    kSameLogTime);
        const double missed = miss_of(counted, printing.print_in_places(steps)).lightness;
        EXPECT_NEAR(missed, miss_of(wanted, printing.print(printing.proof(split, start).steps)).lightness,
                    1e-9);

        const RecipeSearch search(printing, counted);
        FoundRecipe found = recipe_at(3, steps.finishing.bleach_dose, pack, start);
        search.settle(found);
        EXPECT_NEAR(found.lightness_error, missed, kSameLightness);

        const ToldRecipe told{3, 0, pack.development.nominal_s, start, {20}, steps.finishing.bleach_dose};
        const Wanted few = gathered(counted, 40);
        DrawnPaper drawn({pack, 0, 0, 0}, printing, few, ReadWays(pack), std::nullopt);
        const auto misses = drawn.misses(told);
        const PrintModel model = printing.print_in_places(steps);
        for (std::size_t i = 0; i < misses.size(); ++i)
            EXPECT_NEAR(misses[i], model.patch_of(few.tones[i]).lab.l - few.lightness[i],
                        kSamePatchLightness);
    }
}

}  // namespace
}  // namespace fogproof::tests
