// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The tables of the print in the bleach: they hold what the model says, and along the scale of time what the
// trade says of ferricyanide. Common practice, no source: lights clear first, mid-tones lose less, shadows
// least; past clearing the middle goes.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "fogproof/print/print_steps.hpp"
#include "proof/tray_ways.hpp"
#include "support/examples.hpp"
#include "support/recipes.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

WorkedGrid grid_of(const Printing& printing) {
    GridRequest request;
    request.base = recipe_of(2, Seconds{0});
    request.across = usual_across(printing, request.base);
    request.down = usual_down(printing, request.base, request.across);
    return worked_grid(printing, std::move(request));
}

// L* of a way after a time in the bleach, at a light of the frame from 0 (densest) to 1 (thinnest).
double lightness_at(const Tray& tray, const TrayWay& way, double share_of_longest, double light) {
    const auto at = std::size_t(std::lround(share_of_longest * double(tray.dose.size() - 1)));
    const auto dose = std::size_t(std::lround(std::sqrt(tray.dose[at]) * double(Tray::kDoses - 2)));
    const double log_light = tray.darkest + light * (tray.brightest - tray.darkest);
    const auto i = std::size_t(std::lround((log_light - tray.first_light) / Tray::kLightStep));
    return way.colours[dose * tray.lights + i].lab.l;
}

// Packs that fogged little, as the demo's did, and much.
std::vector<Pack> packs() {
    return {fogged_pack(0.22), fogged_pack(0.42), fogged_pack(0.6)};
}

TEST(TrayWays, HoldWhatTheModelSays) {
    for (const Pack& pack : packs()) {
        const Printing printing(pack, ordinary_frame());
        const WorkedGrid grid = grid_of(printing);
        const Tray tray = proof::tray(printing, grid);
        const TrayWay& way = tray.ways[tray.marked];
        const Proof& marked = grid.proofs[grid.marked()];
        for (const std::size_t dose : {0u, 7u, 20u})
            for (const double density : {0.3, 0.7, 1.1}) {
                PrintSteps steps = marked.steps;
                const double u = double(dose) / double(Tray::kDoses - 2);
                steps.finishing.bleach_dose =
                    u * u *
                    bleach_dose(printing.paper().bleach, bleach_bath(pack, marked.recipe),
                                Seconds{tray.longest_s});
                const double expected = printing.print(steps).patch(NegativeDensity{density}).lab.l;
                const double place =
                    (printing.light().log_light(NegativeDensity{density}) - tray.first_light) /
                    Tray::kLightStep;
                const auto i = std::size_t(place);
                const auto l = [&](std::size_t at) { return way.colours[dose * tray.lights + at].lab.l; };
                EXPECT_GE(std::max(l(i), l(i + 1)) + 1e-9, expected);
                EXPECT_LE(std::min(l(i), l(i + 1)) - 1e-9, expected);
            }
    }
}

TEST(TrayWays, LightsClearFirstMidTonesLessAndShadowsLeast) {
    for (const Pack& pack : packs()) {
        const Printing printing(pack, ordinary_frame());
        const Tray tray = proof::tray(printing, grid_of(printing));
        const TrayWay& way = tray.ways[tray.marked];
        ASSERT_TRUE(way.clears_s);
        const double cleared = *way.clears_s / tray.longest_s;
        const auto gain = [&](double light) {
            return lightness_at(tray, way, cleared, light) - lightness_at(tray, way, 0, light);
        };
        EXPECT_GT(gain(0.05), gain(0.5) + 1) << pack.name;
        EXPECT_GT(gain(0.5), gain(1) - 0.5) << pack.name;
        EXPECT_GT(gain(0.05), gain(1) + 3) << pack.name;
    }
}

TEST(TrayWays, PastClearingTheMiddleGoes) {
    for (const Pack& pack : packs()) {
        const Printing printing(pack, ordinary_frame());
        const Tray tray = proof::tray(printing, grid_of(printing));
        const TrayWay& way = tray.ways[tray.marked];
        const double cleared = *way.clears_s / tray.longest_s;
        const auto after = [&](double light) {
            return lightness_at(tray, way, 1, light) - lightness_at(tray, way, cleared, light);
        };
        EXPECT_GT(after(0.5), after(0.02)) << pack.name << ": the lights have little left to lose";
        EXPECT_GT(after(0.5), 1) << pack.name;
    }
}

// Shares of clearing are shares of the dose, and a bath that must soak in first takes no seconds for it.
TEST(TrayWays, MarksLieWhereRecipesHaveThem) {
    const Pack pack = fogged_pack(0.33);
    const Printing printing(pack, ordinary_frame());
    const Tray tray = proof::tray(printing, grid_of(printing));
    const TrayWay& way = tray.ways[tray.marked];
    EXPECT_NEAR(*way.clears_s,
                bleach_step(pack, printing.paper(), recipe_of(2, ClearingPercent{100})).time.value, 1e-6);
    EXPECT_NEAR(*way.over_s,
                bleach_step(pack, printing.paper(), recipe_of(2, ClearingPercent{150})).time.value, 1e-6);
    ASSERT_GT(pack.bleach.soak_s, 0);
    EXPECT_LT(*way.over_s, 1.5 * *way.clears_s);
}

// A reader of the page can only choose between ways whose words differ.
TEST(TrayWays, OfOtherToneOrRedevelopmentHaveOtherWords) {
    const Printing printing(fogged_pack(0.33), ordinary_frame());
    for (const auto& [quantity, values] :
         {std::pair{AxisQuantity::toner, std::vector<std::string>{"none", "sulphide", "selenium"}},
          {AxisQuantity::redevelop, std::vector<std::string>{"0", "10", "60"}}}) {
        GridRequest request;
        request.base = recipe_of(2, ClearingPercent{100});
        request.across = axis_of(quantity, values, "across");
        request.down = axis_of(AxisQuantity::grade, {"2"}, "down");
        const Tray tray = proof::tray(printing, worked_grid(printing, std::move(request)));
        ASSERT_EQ(tray.ways.size(), 3u);
        std::set<std::string> words;
        for (const TrayWay& way : tray.ways) words.insert(way.words);
        EXPECT_EQ(words.size(), 3u);
    }
}

TEST(TrayWays, AreEveryFilterAndDevelopmentOfTheGridOnce) {
    const Printing printing(fogged_pack(0.33), ordinary_frame());
    GridRequest request;
    request.base = recipe_of(2, ClearingPercent{100});
    request.across = axis_of(AxisQuantity::grade, {"1", "2", "3"}, "across");
    request.down = axis_of(AxisQuantity::restrainer, {"0", "10"}, "down");
    const WorkedGrid grid = worked_grid(printing, std::move(request));
    const Tray tray = proof::tray(printing, grid);
    EXPECT_EQ(tray.ways.size(), 6u);
    EXPECT_EQ(std::ranges::count_if(tray.ways, [](const TrayWay& way) { return bool(way.recommended_s); }),
              1);
    EXPECT_EQ(tray.ways[tray.marked].told_s, grid.proofs[grid.marked()].exposures.front().value);
}

}  // namespace
}  // namespace fogproof::tests
