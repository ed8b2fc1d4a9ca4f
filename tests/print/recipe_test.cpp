// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "fogproof/base/error.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(RecipeFile, AFileThatSaysNothingIsAPlainPrint) {
    EXPECT_EQ(parse_recipe("fogproof_recipe = 1\n", "snow.toml"), Recipe{});
}

TEST(RecipeFile, SaysWhatThePrinterDoes) {
    const Recipe recipe = parse_recipe(
        "fogproof_recipe = 1\n"
        "[[exposure]]\ngrade = 0\ntime_s = 12\n[[exposure]]\ngrade = 5\nstops = -0.5\n[[exposure]]\n"
        "[[flash]]\ntime_s = 1.5\n"
        "[develop]\nrestrainer_ml_l = 20\ntime_s = 60\ntemperature_c = 22\n"
        "[bleach]\nclearing_percent = 120\nparts = 75\ntemperature_c = 18\n"
        "[redevelop]\ntime_s = 30\n",
        "snow.toml");
    ASSERT_EQ(recipe.exposures.size(), 3u);
    EXPECT_EQ(recipe.exposures[0], (PlannedExposure{0.0, Seconds{12}}));
    EXPECT_EQ(recipe.exposures[1], (PlannedExposure{5.0, Stops{-0.5}}));
    EXPECT_EQ(recipe.exposures[2], PlannedExposure{});
    ASSERT_EQ(recipe.flashes.size(), 1u);
    EXPECT_EQ(recipe.flashes[0], (PlannedExposure{std::nullopt, Seconds{1.5}}));
    EXPECT_EQ(recipe.restrainer_ml_l, 20);
    EXPECT_EQ(recipe.develop_s, 60);
    EXPECT_EQ(recipe.develop_c, 22);
    EXPECT_EQ(std::get<ClearingPercent>(recipe.bleach).value, 120);
    EXPECT_EQ(recipe.bleach_parts, 75);
    EXPECT_EQ(recipe.bleach_c, 18);
    EXPECT_EQ(recipe.redevelop_s, 30);
}

TEST(RecipeFile, FaultsAreNamedWithTheirLineAndWhatIsAllowed) {
    struct TextFault {
        const char* text;
        const char* message;
    };
    const TextFault kFaults[] = {
        {"[develop]\n",
         "snow.toml: does not say fogproof_recipe; expected: fogproof_recipe = 1 above the first section"},
        {"fogproof_recipe = 3\n", "snow.toml:1: fogproof_recipe = 3; expected: fogproof_recipe = 1"},
        {"fogproof_recipe = 1\nname = 1\n", "snow.toml:2: unknown key name; expected: fogproof_recipe"},
        {"fogproof_recipe = 1\n[bleech]\n", "snow.toml:2: unknown section bleech; nearest is bleach"},
        {"fogproof_recipe = 1\n[bleach]\ntimes = 3\n",
         "snow.toml:3: unknown key in [bleach]: times; nearest is time_s"},
        {"fogproof_recipe = 1\n[bleach]\ntime_s = -1\n", "snow.toml:3: time_s = -1; expected: 0 to 7200 s"},
        {"fogproof_recipe = 1\n[bleach]\ntime_s = nan\n", "snow.toml:3: time_s = nan; expected: 0 to 7200 s"},
        {"fogproof_recipe = 1\n[bleach]\ntime_s = \"40s\"\n",
         "snow.toml:3: time_s = \"40s\"; expected: 0 to 7200 s"},
        {"fogproof_recipe = 1\n[bleach]\ntime_s = 40\nclearing_percent = 100\n",
         "snow.toml:4: clearing_percent beside time_s; expected: one of them in [bleach]"},
        {"fogproof_recipe = 1\n[[exposure]]\ngrade = 2\nstops = 1\ntime_s = 4\n",
         "snow.toml:5: time_s beside stops; expected: one of them in [[exposure]]"},
        {"fogproof_recipe = 1\n[[exposure]]\ngrade = 9\n", "snow.toml:3: grade = 9; expected: 00 to 6"},
        {"fogproof_recipe = 1\n[exposure]\ngrade = 2\n", "snow.toml:2: [exposure]; expected: [[exposure]]"},
        {"fogproof_recipe = 1\n[[develop]]\n", "snow.toml:2: [[develop]]; expected: [develop], once"},
        {"fogproof_recipe = 1\n[[flash]]\ngrade = 2\n", "snow.toml:2: [[flash]]; expected: with time_s"},
        {"fogproof_recipe = 1\n[[flash]]\nstops = 2\n",
         "snow.toml:3: unknown key in [[flash]]: stops; expected: grade, time_s"},
    };
    for (const auto& fault : kFaults) {
        const Error error = refusal([&] { static_cast<void>(parse_recipe(fault.text, "snow.toml")); });
        EXPECT_STREQ(error.what(), fault.message);
        EXPECT_EQ(error.fault(), Fault::data);
    }
}

TEST(RecipeFile, TooManyExposuresAreRefusedAtTheFirstOneOver) {
    std::string text = "fogproof_recipe = 1\n";
    for (int i = 0; i < 9; ++i) text += "[[exposure]]\n";
    EXPECT_STREQ(refusal([&] { static_cast<void>(parse_recipe(text, "snow.toml")); }).what(),
                 "snow.toml:10: one more [[exposure]]; expected: up to 8");
}

TEST(RecipeFile, TwoHundredRandomRecipesComeBackIdentical) {
    std::mt19937_64 dice(20240608);
    std::uniform_real_distribution<double> share(0, 1);
    const auto maybe = [&](double low, double high) {
        return share(dice) < 0.5 ? std::optional<double>{} : std::lerp(low, high, share(dice));
    };
    for (int i = 0; i < 200; ++i) {
        Recipe recipe;
        recipe.exposures.clear();
        for (int k = int(share(dice) * 4); k >= 0; --k) {
            PlannedExposure exposure{maybe(-1, 6), Stops{20 * share(dice) - 10}};
            if (share(dice) < 0.5) exposure.amount = Seconds{1 + 100 * share(dice)};
            recipe.exposures.push_back(exposure);
        }
        for (int k = int(share(dice) * 3); k > 0; --k)
            recipe.flashes.push_back({maybe(-1, 6), Seconds{0.01 + share(dice)}});
        recipe.magnification = maybe(0.05, 100);
        recipe.f_number = maybe(1, 128);
        recipe.restrainer_ml_l = 500 * share(dice);
        recipe.develop_s = maybe(0, 1800);
        recipe.develop_c = maybe(10, 35);
        if (share(dice) < 0.5)
            recipe.bleach = ClearingPercent{1000 * share(dice)};
        else
            recipe.bleach = Seconds{7200 * share(dice)};
        recipe.bleach_parts = maybe(0, 1000);
        recipe.bleach_c = maybe(10, 35);
        recipe.redevelop_s = 1800 * share(dice);
        const std::string text = written(recipe);
        const Recipe back = parse_recipe(text, "random.toml");
        ASSERT_EQ(back, recipe) << text;
        ASSERT_EQ(written(back), text);
    }
}

TEST(Recipe, CheckNamesPlaceFoundAndAllowed) {
    const auto with = [](auto change) {
        Recipe recipe;
        change(recipe);
        const Error error = refusal([&] { check(recipe, "--bleach"); });
        EXPECT_EQ(error.fault(), Fault::usage);
        return std::string(error.what());
    };
    EXPECT_NO_THROW(check(Recipe{}, "recipe"));
    EXPECT_EQ(with([](Recipe& r) { r.bleach = Seconds{-4}; }),
              "--bleach: bleach.time_s = -4; expected: 0 to 7200 s");
    EXPECT_EQ(with([](Recipe& r) { r.bleach = ClearingPercent{std::nan("")}; }),
              "--bleach: bleach.clearing_percent = nan; expected: 0 to 1000 %");
    EXPECT_EQ(with([](Recipe& r) { r.exposures.clear(); }), "--bleach: 0 exposures; expected: 1 to 8");
    EXPECT_EQ(with([](Recipe& r) { r.exposures[0].amount = Seconds{0}; }),
              "--bleach: exposure = 0; expected: 0.05 to 3600 s");
    EXPECT_EQ(with([](Recipe& r) { r.exposures[0].amount = Stops{11}; }),
              "--bleach: exposure = 11; expected: -10 to 10 stops");
    EXPECT_EQ(with([](Recipe& r) { r.exposures[0].grade = 7; }),
              "--bleach: exposure grade = 7; expected: 00 to 6");
    EXPECT_EQ(with([](Recipe& r) { r.flashes = {PlannedExposure{}}; }),
              "--bleach: a flash in stops; expected: seconds");
    EXPECT_EQ(with([](Recipe& r) { r.develop_s = -1; }),
              "--bleach: develop.time_s = -1; expected: 0 to 1800 s");
}

TEST(RecipeLocalWork, ComesBackFromItsOwnText) {
    Recipe recipe;
    using Kind = LocalWork::Kind;
    recipe.local = {{Kind::burn, "sky \"west\"", MaskPicture{"masks/sky one.png"}, Stops{0.7}, 0.0},
                    {Kind::burn, "", MaskShape{MaskShape::Kind::bottom, {35}, 15}, Seconds{8}, std::nullopt},
                    {Kind::dodge, "face", MaskShape{MaskShape::Kind::oval, {60, 40, 20, 15}, 5}, Stops{0.3},
                     std::nullopt},
                    {Kind::bleach, "", MaskShape{MaskShape::Kind::polygon, {10, 10, 90, 10, 50.5, 80}, 2},
                     ClearingPercent{60}, std::nullopt}};
    EXPECT_EQ(parse_recipe(written(recipe), "written"), recipe);
}

TEST(RecipeLocalWork, MasksAreToldFromTheFolderOfTheirRecipe) {
    Recipe recipe;
    recipe.local = {{LocalWork::Kind::burn, "", MaskPicture{"masks/sky.png"}, Stops{1}, std::nullopt}};
    const Recipe here = with_masks_in("job", recipe);
    EXPECT_EQ(std::get<MaskPicture>(here.local[0].where).path, "job/masks/sky.png");
    EXPECT_EQ(with_masks_as_from("job", here), recipe);
    EXPECT_EQ(std::get<MaskPicture>(with_masks_as_from("prints", here).local[0].where).path,
              "../job/masks/sky.png");
}

}  // namespace
}  // namespace fogproof::tests
