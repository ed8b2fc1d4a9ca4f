// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of `start`, asked of the program: what is wanted, what is left out, what is drawn.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using vips::VImage;

const std::string kFrame = " --whole --clear 1 ";

json start(const PatchPrints& prints, const std::string& options) {
    const auto answer = prints.program.run("start neg.tif --pack pack.toml --json" + kFrame + options);
    EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
    return json::parse(answer.out);
}

// Options of `print` that print the best recipe as told.
std::string as_told(const json& answer) {
    const json& best = answer["best"];
    const auto number = [&](const char* key) { return std::to_string(double(best[key])); };
    return "--grade " + number("grade") + " --exposure " + number("exposure_s") + "s --restrainer " +
           number("restrainer_ml_l") + " --develop " + number("develop_s") + " --bleach " +
           number("bleach_s") + "s";
}

// Density above the sheet's white, the lightest that a print can be, in one patch of a grey 16-bit print.
double density_at(const PatchPrints& prints, int patch) {
    const double code =
        patches_of(prints.program, "out.tif", int(PatchPrints::kLight.size()))[std::size_t(patch)];
    return -std::log10(std::pow(code / 65535, 2.2));
}

TEST(StartOptions, NoBleachLeavesTheBleachOut) {
    const PatchPrints prints;
    EXPECT_GT(double(start(prints, "")["best"]["bleach_s"]), 0);
    const json without = start(prints, "--no-bleach");
    EXPECT_EQ(double(without["best"]["bleach_s"]), 0);
    for (const auto& each : without["by_grade"]) EXPECT_EQ(double(each["bleach_s"]), 0);
}

TEST(StartOptions, MostRestrainerIsNeverExceeded) {
    const PatchPrints prints;
    for (const double most : {0.0, 7.0}) {
        const json answer = start(prints, "--most-restrainer " + std::to_string(most));
        EXPECT_LE(double(answer["best"]["restrainer_ml_l"]), most);
        for (const auto& each : answer["by_grade"]) EXPECT_LE(double(each["restrainer_ml_l"]), most);
    }
}

TEST(StartOptions, DilutionStretchesTheTimeAndIsToldBack) {
    const PatchPrints prints;
    const json strong = start(prints, "--dilution 20"), weak = start(prints, "--dilution 80");
    EXPECT_EQ(double(strong["best"]["dilution"]), 20);
    EXPECT_EQ(double(weak["best"]["dilution"]), 80);
    EXPECT_GT(double(weak["best"]["bleach_s"]), double(strong["best"]["bleach_s"]));
}

TEST(StartOptions, APlacedToneComesOutAtItsDensityAboveWhite) {
    const PatchPrints prints;
    // The patch with an even tone around 60 % of the frame from thin to dense is the fifth of seven.
    for (const char* place : {"0.5@64%", "0.9@64%", "0.5@100,4,16,40"}) {
        const json answer = start(prints, std::string("--place ") + place);
        const auto print = prints.program.run(
            "print neg.tif --pack pack.toml --force -o out.tif --profile grey "
            "--rendering relative" +
            kFrame + as_told(answer));
        ASSERT_EQ(print.code, 0) << print.err;
        EXPECT_NEAR(density_at(prints, 4), place[2] == '5' ? 0.5 : 0.9, 0.06) << place;
    }
}

TEST(StartOptions, MatchWantsTheTonesOfAnotherPrint) {
    const PatchPrints prints;
    ASSERT_EQ(prints.program
                  .run("print neg.tif --pack pack.toml -o wanted.tif --grade 4 --exposure 9s --restrainer 20 "
                       "--bleach 80%" +
                       kFrame)
                  .code,
              0);
    const json answer = start(prints, "--match wanted.tif");
    const auto found = prints.codes(as_told(answer)), wanted = patches_of(prints.program, "wanted.tif", 7);
    // On the likeliest paper; the recipe is the one that is expected closest on all that the pack may be.
    for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_NEAR(found[i], wanted[i], 0.05 * 65535) << i;
}

TEST(StartOptions, LadderIsAPictureOfThePrintPulledTooEarlyToTooLate) {
    const PatchPrints prints;
    ASSERT_EQ(prints.program.run("start neg.tif --pack pack.toml --ladder ladder.png" + kFrame).code, 0);
    const VImage ladder = VImage::new_from_file((prints.program / "ladder.png").c_str());
    EXPECT_GT(ladder.width(), 3 * 7 * kPatch);
}

TEST(StartOptions, RungsOfTheLadderAreTheTimesAskedForAndTheToldOne) {
    const PatchPrints prints;
    const auto width = [&](const std::string& rungs) {
        const auto answer =
            prints.program.run("start neg.tif --pack pack.toml --force --ladder ladder.png" + kFrame + rungs);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return VImage::new_from_file((prints.program / "ladder.png").c_str()).width();
    };
    const int five = width(""), three = width("--rungs 1s,90s"), two = width("--rungs 1s");
    // As much narrower for each rung.
    EXPECT_NEAR(three - two, (five - three) / 2.0, 1);
    EXPECT_GT(three, two);
}

// Light grey pixels: as white as the paper only fixed.
double whites_of(const std::string& path) {
    const VImage picture = VImage::new_from_file(path.c_str());
    const VImage grey = picture.extract_band(0);
    return (grey >= grey.max() - 2).avg() / 255 * grey.width() * grey.height();
}

TEST(StartOptions, LadderShowsFreshPaperAndTheToldPrintLarge) {
    const PatchPrints prints;
    ASSERT_EQ(
        prints.program.run("start neg.tif --pack pack.toml --rendering relative --ladder ladder.png" + kFrame)
            .code,
        0);
    const VImage ladder = VImage::new_from_file((prints.program / "ladder.png").c_str());
    // The slips at the sides of five small prints and two large ones, and the whole border of a fresh print.
    const int print = 7 * kPatch + 2 * 8, high = 2 * kPatch + 2 * 8;
    EXPECT_GT(ladder.height(), 3 * high);
    const double border_of_one = print * high - 7 * kPatch * 2 * kPatch;
    EXPECT_GT(whites_of((prints.program / "ladder.png").string()), 7 * 10.5 * high + 0.8 * border_of_one);
}

TEST(StartOptions, RescueSaysWhatRedevelopmentBringsBack) {
    const PatchPrints prints;
    const auto answer = prints.program.run("start neg.tif --pack pack.toml --rescue 400s" + kFrame);
    EXPECT_EQ(answer.code, 0);
    EXPECT_THAT(answer.out, HasSubstr("redevelop"));
    const auto as_json = prints.program.run("start neg.tif --pack pack.toml --json --rescue 400s" + kFrame);
    ASSERT_TRUE(json::accept(as_json.out)) << as_json.out;
    EXPECT_THAT(answer.out, HasSubstr(" come closest (95 %)"));
    const json best = json::parse(as_json.out)["best"];
    EXPECT_LT(double(best["redevelop_s_low"]), double(best["redevelop_s"]));
    EXPECT_GT(double(best["redevelop_s_high"]), double(best["redevelop_s"]));
}

TEST(StartOptions, DryDownLeavesTimesOfTheDryPrintAlone) {
    // The model is fitted to dry densities, so that dry-down is in every time already. What is left to
    // correct is the eye on a wet strip, by 8 to 12 % (common practice, no source).
    const PatchPrints prints;
    const json plain = start(prints, ""), told = start(prints, "--dry-down 10");
    EXPECT_NEAR(double(told["dry_down"]), 0.1, 1e-9);
    for (const char* key : {"best", "by_grade", "test_strip", "split_grade", "flash"})
        EXPECT_EQ(told[key], plain[key]) << key;
    const auto text = prints.program.run("start neg.tif --pack pack.toml --dry-down 10" + kFrame).out;
    EXPECT_THAT(text,
                HasSubstr("all times are for the dry print, dry-down included; if you choose a band wet, "
                          "give 10 % less"));
}

TEST(StartOptions, WhatIsDecidedIsKeptInEveryRecipe) {
    const PatchPrints prints;
    const json answer =
        start(prints, "--grade 3 --restrainer 7 --develop 120 --bleach 45s --recipe-out decided.toml");
    std::vector<json> recipes = answer["by_grade"];
    recipes.push_back(answer["best"]);
    for (const json& each : recipes) {
        EXPECT_EQ(double(each["grade"]), 3);
        EXPECT_EQ(double(each["restrainer_ml_l"]), 7);
        EXPECT_EQ(double(each["develop_s"]), 120);
        EXPECT_EQ(double(each["bleach_s"]), 45);
    }
    EXPECT_TRUE(answer["unbleached"].is_null());
    EXPECT_NEAR(double(start(prints, "--bleach 80%")["best"]["clearing_percent"]), 80, 1e-6);
    EXPECT_EQ(double(start(prints, "--restrainer 0")["best"]["restrainer_ml_l"]), 0);
}

// What is told is what comes out, on average, with every doubt in it; so it is more than the distance on the
// paper as described, and lies inside its interval.
TEST(StartOptions, DistancesAreToldAsExpectedWithEveryDoubt) {
    const PatchPrints prints;
    const json best = start(prints, "")["best"];
    EXPECT_GT(double(best["lightness_error"]), double(best["lightness_error_as_described"]));
    EXPECT_LT(double(best["lightness_error_low"]), double(best["lightness_error"]));
    EXPECT_GT(double(best["lightness_error_high"]), double(best["lightness_error"]));
    EXPECT_LT(double(best["lightness_error_after_strip"]), double(best["lightness_error"]));
}

// The table shows the best at each grade. None that is worked alike is a better bet, halfway between the
// first sheet and the one after a strip, than what is recommended.
TEST(StartOptions, NoRowOfTheTableIsABetterBetThanTheBest) {
    constexpr double kOtherStrip =
        0.1;  // L*: recipes are ranked by strips in thirds, told by the strip in hand
    const Program program;
    ASSERT_EQ(program.run("demo box").code, 0);
    for (const char* options : {"", "--no-bleach", "--mind 80%-100%", "--restrainer 20"}) {
        const auto said =
            program.run("start box/negative.tif --pack box/pack.toml --json " + std::string(options));
        ASSERT_EQ(said.code, 0) << said.err;
        const json answer = json::parse(said.out), best = answer["best"];
        const auto bet = [](const json& point) {
            return (double(point["lightness_error"]) + double(point["lightness_error_after_strip"])) / 2;
        };
        for (const json& row : answer["by_grade"])
            if (row["restrainer_ml_l"] == best["restrainer_ml_l"] && row["develop_s"] == best["develop_s"]) {
                EXPECT_GT(bet(row) + kOtherStrip, bet(best)) << options << '\n' << row;
            }
    }
}

TEST(StartOptions, RecipeOutIsTheRecipeThatPrintReads) {
    const PatchPrints prints;
    for (const std::string dilution : {"", " --dilution 20"}) {
        const std::string file = dilution.empty() ? "best.toml" : "strong.toml";
        const json answer = start(prints, "--recipe-out " + file + dilution);
        EXPECT_THAT(content_of(prints.program / file), HasSubstr("fogproof_recipe = 1"));
        const auto told = prints.codes(as_told(answer) + dilution), read = prints.codes("--recipe " + file);
        for (std::size_t i = 0; i < told.size(); ++i) EXPECT_NEAR(read[i], told[i], 70) << i;
    }
    const auto again = prints.program.run("start neg.tif --pack pack.toml --recipe-out there.tif" + kFrame);
    EXPECT_EQ(again.code, 0);
    EXPECT_EQ(prints.program.run("start neg.tif --pack pack.toml --recipe-out there.tif" + kFrame).code, 73)
        << "only --force replaces it";
}

// `print` counts stops from the fresh print's start, whatever else was wanted when the recipe was sought.
TEST(StartOptions, RecipeOutOfAPackWithoutAnAnchorHoldsItsStops) {
    const PatchPrints prints;
    const std::string pack = content_of(prints.program / "pack.toml");
    prints.program.write("free.toml", pack.substr(0, pack.find("[anchor]")));
    const std::string free = " neg.tif --pack free.toml" + kFrame;
    const auto answer = prints.program.run("start --json --recipe-out stops.toml --place 0.9@64% " + free);
    ASSERT_EQ(answer.code, 0) << answer.err;
    const double wanted = json::parse(answer.out)["best"]["full_black_stops"];
    const std::string said = prints.program.run("print --recipe stops.toml -o free.tif" + free).err;
    std::smatch stops;
    ASSERT_TRUE(std::regex_search(said, stops, std::regex("full black ([+-][0-9.]+) stop"))) << said;
    EXPECT_NEAR(std::stod(stops[1]), wanted, 0.06) << "told in tenths";
    EXPECT_GT(std::abs(wanted), 0.1);
}

TEST(StartOptions, APrintIsItsOwnRecipeInEveryFormat) {
    const PatchPrints prints;
    const std::string recipe = "--grade 3 --exposure 9s --restrainer 20 --bleach 30s";
    const auto first = prints.codes(recipe);
    for (const char* picture : {"first.tif", "first.png", "first.jpg"}) {
        const auto made =
            prints.program.run(std::string("print neg.tif --pack pack.toml --force -o ") + picture + kFrame +
                               recipe + (picture[6] == 'j' ? " --bits 8" : ""));
        ASSERT_EQ(made.code, 0) << made.err;
        const auto again = prints.codes(std::string("--recipe ") + picture);
        for (std::size_t i = 0; i < first.size(); ++i) EXPECT_NEAR(again[i], first[i], 1) << picture << i;
    }
}

TEST(StartOptions, FreshPaperMayBeOfAGradeThatIsNamed) {
    const PatchPrints prints;
    const json soft = start(prints, "--fresh 1 --no-bleach"), hard = start(prints, "--fresh 4 --no-bleach");
    EXPECT_THAT(std::string(hard["target"]), HasSubstr("this paper before it fogged, at grade 4"));
    EXPECT_LT(double(soft["best"]["grade"]) + 1, double(hard["best"]["grade"]));
    const auto plan = prints.program.run("plan neg.tif --pack pack.toml --json --fresh 4" + kFrame);
    EXPECT_THAT(plan.out, HasSubstr("at grade 4"));
}

// Common practice, no source: fresh paper gains brilliance, print it darker than wanted and bleach it. Paper
// of grade 2 then comes nearer to grade 3 than it does unbleached.
TEST(StartOptions, FreshPaperOfAHarderGradeIsMetDarkerThenBleached) {
    const PatchPrints prints;
    prints.program.write("graded.toml", R"(fogproof_pack = 1
[paper]
contrast = "graded"
white = 0.08
iso_range = { value = 105, sd = 2, from = "measured" }
[fog]
blank = 0.08
[bleach]
starvation = { value = 0.04, sd = 0.004, from = "measured" }
order = { value = 1, sd = 0.02, from = "measured" }
time_exponent = { value = 1, sd = 0.02, from = "measured" }
soak_s = { value = 5, sd = 0.5, from = "measured" }
per_second = { value = 0.006, sd = 0.0003, from = "measured" }
[speed]
log_seconds = { value = 0.5, sd = 0.01, from = "measured" }
[anchor]
known = true
)");
    const auto answer =
        prints.program.run("start neg.tif --pack graded.toml --json --restrainer 0 --fresh 3.5" + kFrame);
    ASSERT_EQ(answer.code, 0) << answer.err;
    const json told = json::parse(answer.out), best = told["best"], plain = told["unbleached"];
    EXPECT_THAT(std::string(told["target"]), HasSubstr("fresh paper like this one, but of grade 3.5"));
    EXPECT_GT(double(best["bleach_s"]), 0);
    EXPECT_GT(double(best["bleach_s_high"]), double(best["bleach_s"]));
    EXPECT_GT(double(best["exposure_s"]), double(plain["exposure_s"])) << "darker, then bleached";
    EXPECT_LT(double(best["lightness_error"]), double(plain["lightness_error"]));
}

}  // namespace
}  // namespace fogproof::tests
