// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The same recipe has the same seconds wherever it is told: in start, plan, print and grid, on any pack.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>
#include <regex>

#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/grades.hpp"
#include "proof/worked_grid.hpp"
#include "support/examples.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;

constexpr double kOnePercent = 0.01;
const double kOnePercentInStops = std::log2(1 + kOnePercent);

// A pack with or without an anchor, with filters of the trade's numbers or measured ones.
Pack any_pack(std::mt19937& random) {
    Pack pack = examples::random_pack(random);
    const auto maybe = [&] { return std::bernoulli_distribution(0.5)(random); };
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution(low, high)(random);
    };
    if (pack.contrast == Contrast::variable && maybe()) {
        const double soft = between(0.2, 0.6), hard = between(-1.6, -0.8);
        pack.filters = {{0, soft, between(-0.1, 0.1)},
                        {2, (soft + hard) / 2, between(-0.1, 0.1)},
                        {4.5, hard, between(-0.4, 0)}};
        pack.knowledge["filter.2.balance"] = {Origin::measured, 0.03};
    }
    pack.darkroom.anchored = maybe();
    return pack;
}

// What `print` and `grid` are told of a recipe: everything but its exposure.
Recipe told(const StartingPoint& point) {
    Recipe recipe;
    recipe.exposures.front().grade = point.found.grade;
    recipe.restrainer_ml_l = point.found.restrainer_ml_l;
    recipe.develop_s = point.found.develop_s;
    recipe.bleach = point.proof.bleach;
    return recipe;
}

std::string number(const json& value) {
    return value.dump();
}

// Seconds out of what a print says of itself.
double printed_seconds(const Program& program, const std::string& picture) {
    const std::string all = content_of(program / picture);
    std::smatch match;
    const bool found = std::regex_search(all, match, std::regex("time_s = ([0-9.eE+-]+)"));
    EXPECT_TRUE(found) << picture;
    return found ? std::stod(match[1]) : 0;
}

}  // namespace

TEST(OneExposure, FiftyPacksHaveOneForStartPrintAndGrid) {
    std::mt19937 random(50);
    double worst = 0;
    for (int i = 0; i < 50; ++i) {
        const double range = std::uniform_real_distribution(0.7, 1.5)(random);
        const Printing printing(any_pack(random), examples::ordinary_frame(0.15, range));
        SearchBounds bounds = usual_bounds(printing);
        bounds.restrainers = {std::uniform_real_distribution(0.0, 30.0)(random)};
        bounds.develop_s = {bounds.develop_s[std::size_t(i) % 2]};
        const Wanted wanted = as_fresh(printing);
        const RecipeSearch search(printing, wanted);
        for (const double deepest : {0.0, 0.5, 1.6}) {
            bounds.most_clearing = deepest;
            const FoundRecipe found = search.best(bounds);
            Recipe recipe = search.as_recipe(found);
            const double model = printing.starting_exposure(recipe, wanted).value;
            const double table = time_giving(found.exposure, printing.pack().darkroom.enlarger).value;
            worst = std::max(worst, std::abs(std::log2(table / model)));
            StartingPoint point{found, recipe, printing.proof(recipe), {}, {}, 0};
            EXPECT_NEAR(printing.proof(told(point)).exposures.front().value / model, 1, kOnePercent) << i;
        }
    }
    EXPECT_LT(worst, 2 * kOnePercentInStops) << "the search ranks prints other than those that are told";
}

TEST(OneExposure, StartPlanPrintAndGridTellTheSame) {
    std::mt19937 random(7);
    PatchPrints prints;
    for (int i = 0; i < 5; ++i) {
        Pack pack = any_pack(random);
        pack.darkroom.anchored = i != 2;
        prints.program.write("any.toml", written(pack));
        const std::string how = " neg.tif --pack any.toml --whole --clear 1 ";
        const auto start = prints.program.run("start --json" + how);
        const auto plan = prints.program.run("plan --json" + how);
        ASSERT_EQ(start.code, 0) << start.err;
        ASSERT_EQ(plan.code, 0) << plan.err;
        const json answer = json::parse(start.out), sheet = json::parse(plan.out)["prints"][0];
        EXPECT_EQ(sheet["grade"], answer["best"]["grade"]);
        EXPECT_NEAR(double(sheet["full_black_stops"]), double(answer["best"]["full_black_stops"]), 1e-9);

        std::vector<json> points{answer["best"], answer["unbleached"], answer["by_grade"].front()};
        for (const json& point : points) {
            const std::string recipe = " --restrainer " + number(point["restrainer_ml_l"]) + " --develop " +
                                       number(point["develop_s"]) + " --bleach " + number(point["bleach_s"]) +
                                       "s --grade " + number(point["grade"]);
            const auto grid = prints.program.run("grid" + how +
                                                 "--force --cell 80 -o grid.png --across exposure=+0 "
                                                 "--down redevelop=0" +
                                                 recipe);
            ASSERT_EQ(grid.code, 0) << grid.err;
            const json cell = json::parse(content_of(prints.program / "grid.png.json"))["cells"][0];
            EXPECT_NEAR(double(cell["full_black_stops"]), double(point["full_black_stops"]),
                        kOnePercentInStops)
                << i << recipe;
            EXPECT_NEAR(double(cell["lightness_error"]), double(point["lightness_error_as_described"]), 0.1)
                << i << recipe;
            if (!pack.darkroom.anchored) continue;
            EXPECT_NEAR(double(cell["exposures"][0]["exposure_s"]) / double(point["exposure_s"]), 1,
                        kOnePercent);
            const auto print = prints.program.run("print" + how + "--force -o out.tif" + recipe);
            ASSERT_EQ(print.code, 0) << print.err;
            EXPECT_NEAR(printed_seconds(prints.program, "out.tif") / double(point["exposure_s"]), 1,
                        kOnePercent)
                << i << recipe;
        }
    }
}

// A printer who does not bleach judges a fogged sheet against its own grey border: the fog darkens the whole
// sheet, and less exposure does not make up for it. Common practice, no source.
TEST(OneExposure, AnUnbleachedSheetIsNotExposedEverLessForItsFog) {
    const auto seconds = [](double fog) {
        const Printing printing(examples::fogged_pack(fog), examples::ordinary_frame());
        Recipe recipe;
        recipe.exposures.front().grade = 2;
        return printing.proof(recipe).exposures.front().value;
    };
    const double clean = seconds(0.02);
    for (const double fog : {0.15, 0.3, 0.45}) EXPECT_GT(seconds(fog) / clean, 0.8) << fog;
}

}  // namespace fogproof::tests
