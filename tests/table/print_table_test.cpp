// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The table keeps what the model says, for every code value there is.
#include "table/print_table.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <string>
#include <vector>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "negative/density_scale.hpp"
#include "print/clearing.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// The promise made to the user, in L*; a fiftieth of what an eye tells apart. The same is asked of a* and b*.
constexpr double kPromise = 0.02;
// L*: last digits of a cubic.
constexpr double kRounding = 1e-9;

std::vector<NegativeDensity> linear_scale(std::size_t codes) {
    return negative_densities(light_of_codes(Encoding::linear, codes), {});
}

struct Work {
    std::string name;
    Pack pack;
    Recipe recipe;
    std::optional<BathLayer> bath;
};

std::vector<Work> works() {
    const auto recipe = [](double grade, double seconds, double percent) {
        Recipe made;
        made.exposures = {{grade, Seconds{seconds}}};
        if (percent > 0) made.bleach = ClearingPercent{percent};
        return made;
    };
    Pack graded = examples::fogged_pack(0.3), steep = examples::fogged_pack(0.1), matt;
    graded.contrast = Contrast::graded;
    graded.iso_range = 40;
    steep.grains.spread = 0.08;  // steeper than any paper sold
    steep.black_density = 2.3;
    steep.sheet.surface = 0.002;
    Slips slips{.white_density = 0.12, .blank_density = 0.6, .surface = Surface::matt};
    matt = pack_from_slips(slips);
    matt.darkroom.anchored = true;
    matt.sheet.stain = 0.08;
    matt.sheet.thinned_tone = 0.6;

    Recipe of_graded;
    of_graded.exposures = {{std::nullopt, Seconds{10}}};
    of_graded.bleach = ClearingPercent{100};
    Recipe split = recipe(0, 4, 0), flashed = recipe(4, 12, 100), toned = recipe(2, 30, 250);
    split.exposures.push_back({5.0, Seconds{9}});
    flashed.flashes = {{0.0, Seconds{0.4}}};
    toned.redevelop_s = 20;
    Recipe sepia = recipe(2, 30, 2000), halves = recipe(3, 20, 60), purple = recipe(2, 20, 0);
    sepia.toner = Toner::sulphide;
    halves.toner = Toner::thiourea;
    purple.toner = Toner::selenium;

    const Pack usual = examples::fogged_pack(0.35);
    // Of a bath that takes all silver of one tone and none of the next.
    Pack sudden = usual, slow = usual;
    sudden.bleach.starvation = 0;
    slow.bleach.order = 0.4;
    return {{"corner of a bleach that is never starved", sudden, recipe(5, 40, 300), {}},
            {"the same, softer", sudden, recipe(2, 20, 200), {}},
            {"bleach of a low order", slow, recipe(5, 40, 200), {}},
            {"soft grade", usual, recipe(0, 12, 0), {}},
            {"hard grade", usual, recipe(5, 12, 0), {}},
            {"hard grade, strong bleach", usual, recipe(5, 40, 300), {}},
            {"split grade", usual, split, {}},
            {"flash", usual, flashed, {}},
            {"bleached and redeveloped", usual, toned, {}},
            {"sepia", usual, sepia, {}},
            {"lights toned, darks neutral", usual, halves, {}},
            {"selenium", usual, purple, {}},
            {"under the bath", usual, recipe(3, 20, 100), BathLayer{2.0, 5.0}},
            {"matt, strong fog, stain", matt, recipe(2, 20, 100), {}},
            {"hard graded paper", graded, of_graded, {}},
            {"steeper than any paper", steep, recipe(5, 12, 100), {}}};
}

struct Worst {
    double l = 0, a = 0, b = 0;
};

Worst worst_of(const PrintTable& table, const PrintModel& model, const std::vector<NegativeDensity>& scale) {
    Worst worst;
    for (std::size_t code = 0; code < scale.size(); ++code) {
        const Lab is = table.lab()[code], wanted = model.patch(scale[code]).lab;
        worst.l = std::max(worst.l, std::abs(is.l - wanted.l));
        worst.a = std::max(worst.a, std::abs(is.a - wanted.a));
        worst.b = std::max(worst.b, std::abs(is.b - wanted.b));
    }
    return worst;
}

PrintModel model_of(const Work& work) {
    const PaperModel paper = paper_model(work.pack);
    return {paper, work.pack.darkroom.enlarger, print_steps(work.pack, paper, work.recipe, std::nullopt), 0.2,
            work.bath};
}

TEST(PrintTable, EveryCodeIsWithinTwoHundredthsOfItsModel) {
    for (const Work& work : works()) {
        const PrintModel model = model_of(work);
        for (const std::size_t codes : {std::size_t{65536}, std::size_t{256}}) {
            const auto scale = linear_scale(codes);
            const PrintTable table(model, scale);
            ASSERT_EQ(table.lab().size(), codes);
            const Worst worst = worst_of(table, model, scale);
            std::cout << work.name << ", " << codes << " codes: worst L* " << worst.l << ", a* " << worst.a
                      << ", b* " << worst.b << '\n';
            EXPECT_LE(worst.l, kPromise) << work.name;
            EXPECT_LE(worst.a, kPromise) << work.name;
            EXPECT_LE(worst.b, kPromise) << work.name;
        }
    }
}

// The other codings of a scan reach other densities, below clear film too.
TEST(PrintTable, KeepsItsPromiseForEveryCoding) {
    const PrintModel model = model_of(works().front());
    for (const Encoding encoding : {Encoding::srgb, Encoding::gamma22, Encoding::density}) {
        const auto scale = negative_densities(light_of_codes(encoding, 65536), {0.6, 0.001});
        EXPECT_LE(worst_of(PrintTable(model, scale), model, scale).l, kPromise) << int(encoding);
    }
    const auto scale = negative_densities(light_of_log_codes(), {});
    EXPECT_LE(worst_of(PrintTable(model, scale), model, scale).l, kPromise);
}

TEST(PrintTable, TellsItsOwnWorstErrorAsItIs) {
    const Work work = works()[2];
    const PrintModel model = model_of(work);
    const auto scale = linear_scale(65536);
    const PrintTable table(model, scale);
    EXPECT_EQ(worst_lightness_error(table, model, scale), worst_of(table, model, scale).l);
    // A table of another print is found out.
    EXPECT_GT(worst_lightness_error(table, model_of(works()[0]), scale), 1);
}

TEST(PrintTable, NeverTurnsBackBetweenTwoCodes) {
    for (const Work& work : works()) {
        const auto scale = linear_scale(65536);
        const PrintTable table(model_of(work), scale);
        for (std::size_t code = 1; code < scale.size(); ++code)
            ASSERT_LE(table.lab()[code].l, table.lab()[code - 1].l + kRounding)
                << work.name << " code " << code;
    }
}

TEST(PrintTable, EveryPlaceHasTheTableOfItsOwnPrint) {
    // A place that is burned for as long again is the print exposed for twice the time.
    const Pack pack = examples::fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    const Filter filter = filter_for(pack, paper, 2);
    const Exposure main{filter, Seconds{8}}, burn{filter, Seconds{8}};
    const TreatedSheet sheet(paper, nominal_step(pack.development));
    const auto print = [&](std::vector<Lighting> places) {
        return PrintModel(Projection(pack.darkroom.enlarger, 0.2, std::move(places)), sheet);
    };
    const auto scale = linear_scale(256);
    const PrintTable plain(print({{{main}, {}}}), scale),
        longer(print({{{{filter, Seconds{16}}}, {}}}), scale);
    const PrintModel both = print({{{main}, {}}, {{main, burn}, {}}});
    const PrintTable table(both, scale);
    ASSERT_EQ(table.lab().size(), 2 * scale.size());
    for (std::size_t code = 0; code < scale.size(); ++code) {
        EXPECT_EQ(table.lab()[code].l, plain.lab()[code].l);
        EXPECT_NEAR(table.lab()[scale.size() + code].l, longer.lab()[code].l, kRounding);
        EXPECT_EQ(both.patch_of(Tone{scale[code], 0.1, 1}).lab.l, both.patch(scale[code], 1).lab.l);
    }
    EXPECT_LE(worst_lightness_error(table, both, scale), kPromise);
}

TEST(PrintTable, AFrameOfOneDensityHasATableToo) {
    const PrintModel model = model_of(works().front());
    const std::vector<NegativeDensity> scale(256, NegativeDensity{0.7});
    const PrintTable table(model, scale);
    // The node lies on the density itself; shares of grains come out of a table that errs by under 1e-8.
    constexpr double kShares = 1e-6;
    EXPECT_NEAR(table.lab()[17].l, model.patch({0.7}).lab.l, kShares);
}

}  // namespace
}  // namespace fogproof::tests
