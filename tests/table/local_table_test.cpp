// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Small tables for local work against the model asked tone by tone in double precision.
#include "table/local_table.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <random>
#include <string>
#include <vector>

#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// L*; what is promised of every tone, a fiftieth of what an eye tells apart.
constexpr double kPromised = 0.02;
constexpr double kMeanTransmitted = 0.2;

LocalWork work(LocalWork::Kind kind, std::variant<Stops, Seconds, ClearingPercent> amount,
               std::optional<double> grade = std::nullopt) {
    return {kind, "", MaskShape{}, amount, grade};
}

// Packs of all kinds, each with a burn, a dodge, a bleach and more.
struct Case {
    std::string name;
    Pack pack;
    Recipe recipe;
};

Case drawn_case(std::mt19937_64& random) {
    const auto from = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    Case made{"", examples::fogged_pack(from(0.08, 0.6)), {}};
    Pack& pack = made.pack;
    if (from(0, 1) < 0.5) pack.edge_fog = {from(0.02, 0.6), 15, ""};
    pack.grains.spread = from(0.1, 0.2);
    pack.bleach.starvation = from(0.01, 0.15);
    pack.darkroom.enlarger.reciprocity = from(0, 1) < 0.4 ? 1 : from(0.85, 1);
    pack.darkroom.enlarger.flare = from(0, 0.05);
    pack.darkroom.enlarger.callier = from(1, 1.3);
    if (from(0, 1) < 0.3) {
        pack.contrast = Contrast::graded;
        pack.iso_range = from(50, 130);
    }
    const bool variable = pack.contrast == Contrast::variable;
    const auto grade = [&]() -> std::optional<double> {
        if (!variable) return std::nullopt;
        return std::floor(from(0, 4));  // what all of these packs have
    };
    made.recipe.exposures = {{grade(), Seconds{from(4, 30)}}};
    if (variable && from(0, 1) < 0.3) made.recipe.exposures.push_back({grade(), Seconds{from(2, 20)}});
    if (from(0, 1) < 0.3) made.recipe.flashes = {{grade(), Seconds{from(0.1, 0.5)}}};
    if (from(0, 1) < 0.7) made.recipe.bleach = ClearingPercent{from(0, 120)};
    if (from(0, 1) < 0.3) made.recipe.redevelop_s = from(10, 60);
    if (from(0, 1) < 0.4) made.recipe.toner = Toner(1 + int(from(0, 2.99)));
    using Kind = LocalWork::Kind;
    auto& local = made.recipe.local;
    local.push_back(work(Kind::burn, Stops{from(0.1, 2.5)}));
    if (from(0, 1) < 0.6) local.push_back(work(Kind::burn, Seconds{from(1, 20)}, grade()));
    if (from(0, 1) < 0.6) local.push_back(work(Kind::burn, Stops{from(0.1, 1.5)}, grade()));
    if (from(0, 1) < 0.6) local.push_back(work(Kind::dodge, Stops{from(0.1, 1)}));
    if (from(0, 1) < 0.4) local.push_back(work(Kind::dodge, Seconds{from(0.2, 2)}));
    if (from(0, 1) < 0.7) local.push_back(work(Kind::bleach, ClearingPercent{from(10, 150)}));
    return made;
}

// The laws as they are written down, with nothing of the program's way to places: times of the exposures,
// light of each to the power of reciprocity, doses that add, fog of a place as if the whole sheet had it.
Lab by_the_laws(const Case& of, const PrintSteps& steps, PaperModel paper, double density,
                std::vector<double> levels) {
    if (of.pack.edge_fog.is_there()) {
        paper.emulsion.fog.share += levels.back() * paper.emulsion.fog.edge;
        paper.emulsion.fog.edge = 0;
        levels.pop_back();
    }
    const Enlarger& enlarger = of.pack.darkroom.enlarger;
    double all = 0;
    for (const auto& exposure : steps.exposures) all += exposure.time.value;
    double added = 0, dose = steps.finishing.bleach_dose;
    std::vector<Exposure> exposures;
    for (std::size_t i = 0; i < levels.size(); ++i) {
        const LocalWork& local = of.recipe.local[i];
        if (local.kind == LocalWork::Kind::bleach) {
            dose += levels[i] * steps.local[i].dose;
            continue;
        }
        const bool burn = local.kind == LocalWork::Kind::burn;
        double time = 0;
        if (const auto* stops = std::get_if<Stops>(&local.amount))
            time = burn ? all * (std::pow(2, levels[i] * stops->value) - 1)
                        : all * (1 - std::pow(2, -levels[i] * stops->value));
        else
            time = levels[i] * std::get<Seconds>(local.amount).value;
        if (steps.local[i].filter)
            exposures.push_back({*steps.local[i].filter, {time}});
        else
            added += burn ? time : -time;
    }
    for (const auto& exposure : steps.exposures)
        exposures.push_back({exposure.filter, {std::max(0.0, exposure.time.value * (all + added) / all)}});
    const EaselLight light = light_at_easel({density}, kMeanTransmitted, enlarger, exposures, steps.flashes);
    return TreatedSheet(paper, steps.develop, {dose, steps.finishing.redevelop, steps.finishing.toner})
        .lit(light)
        .lab;
}

TEST(LocalTableTest, ErrsByLessThanPromisedOverRandomPacksTonesAndLevelsOfMasks) {
    std::mt19937_64 random(20);
    double worst = 0, worst_colour = 0;
    for (int each = 0; each < 50; ++each) {
        const Case drawn = drawn_case(random);
        const PaperModel paper = paper_model(drawn.pack);
        const PrintSteps steps = print_steps(drawn.pack, paper, drawn.recipe, std::nullopt);
        const LocalTable table(paper, drawn.pack.darkroom.enlarger, steps, kMeanTransmitted);
        ASSERT_EQ(table.works(), drawn.recipe.local.size() + (drawn.pack.edge_fog.is_there() ? 1 : 0));
        for (int tone = 0; tone < 40; ++tone) {
            std::uniform_real_distribution<> density(0, 2.5), any(-0.2, 1.2);
            const double here = density(random);
            std::vector<float> levels;
            std::vector<double> exact;
            for (std::size_t i = 0; i < table.works(); ++i) {
                levels.push_back(float(std::clamp(any(random), 0.0, 1.0)));  // also none and full
                exact.push_back(double(levels.back()));
            }
            std::vector<const float*> rows;
            for (const float& level : levels) rows.push_back(&level);
            const float through = table.transmitted(NegativeDensity{here});
            float share = 0, dose = 0;
            table.find({&through, 1}, rows, {{&share, 1}, {&dose, 1}});
            const Lab quick = table.colour(double(share), double(dose));
            const Lab asked = by_the_laws(drawn, steps, paper, here, exact);
            worst = std::max(worst, std::abs(quick.l - asked.l));
            worst_colour = std::max({worst_colour, std::abs(quick.a - asked.a), std::abs(quick.b - asked.b)});
            // The place of a model is the same print.
            const std::vector<std::vector<double>> places{exact};
            const PrintModel model(paper, drawn.pack.darkroom.enlarger, steps, kMeanTransmitted, places);
            EXPECT_NEAR(model.patch({here}, 0).lab.l, asked.l, 1e-9);
        }
    }
    std::cout << "2000 tones: worst " << worst << " L*, " << worst_colour << " of a* and b*\n";
    EXPECT_LT(worst, kPromised);
    EXPECT_LT(worst_colour, kPromised);
}

}  // namespace
}  // namespace fogproof::tests
