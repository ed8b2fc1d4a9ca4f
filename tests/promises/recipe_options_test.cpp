// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of a recipe, asked of the program: each against another way of saying the same print, and
// against what the trade knows it must do.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

const std::string kRecipeSeconds = "--exposure 12s ";

TEST(RecipeOptions, ARecipeFileSaysWhatTheOptionsSay) {
    const PatchPrints prints;
    prints.program.write(
        "recipe.toml",
        "fogproof_recipe = 1\n[[exposure]]\ngrade = 3\ntime_s = 12\n[develop]\nrestrainer_ml_l = 20\n"
        "time_s = 75\n[bleach]\ntime_s = 40\nparts = 30\n[redevelop]\ntime_s = 15\n");
    const auto told = prints.codes(
        "--grade 3 --exposure 12s --restrainer 20 --develop 75 --bleach 40s --dilution 30 "
        "--redevelop 15");
    EXPECT_EQ(prints.codes("--recipe recipe.toml"), told);
    // Options override the file.
    EXPECT_EQ(prints.codes("--recipe recipe.toml --grade 1 --bleach 20s"),
              prints.codes("--grade 1 --exposure 12s --restrainer 20 --develop 75 --bleach 20s --dilution 30 "
                           "--redevelop 15"));
}

TEST(RecipeOptions, AFlashOverridesThatOfTheFile) {
    const PatchPrints prints;
    prints.program.write(
        "flash.toml",
        "fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = 12\n[[flash]]\ngrade = 2\ntime_s = 1\n");
    const std::string plain = kRecipeSeconds + "--grade 2 ";
    EXPECT_EQ(prints.codes("--recipe flash.toml"), prints.codes(plain + "--flash 1s@2"));
    EXPECT_EQ(prints.codes("--recipe flash.toml --flash 0.5s@2"), prints.codes(plain + "--flash 0.5s@2"));
    EXPECT_NE(prints.codes("--recipe flash.toml"), prints.codes(plain));
}

TEST(RecipeOptions, AHarderGradeSpreadsTheTonesFurther) {
    const PatchPrints prints;
    double last = 0;
    for (const char* grade : {"0", "1", "2", "3", "4", "5"}) {
        const auto codes = prints.codes(kRecipeSeconds + "--flare 0 --grade " + grade);
        double steepest = 0;
        for (std::size_t i = 1; i < codes.size(); ++i) steepest = std::max(steepest, codes[i] - codes[i - 1]);
        EXPECT_GT(steepest, last) << grade;
        last = steepest;
    }
}

TEST(RecipeOptions, ASplitThroughOneFilterIsTheSumOfItsTimes) {
    const PatchPrints prints;
    expect_same_print(prints.codes("--reciprocity 1 --split 5s@2 7s@2"),
                      prints.codes(kRecipeSeconds + "--reciprocity 1 --grade 2"));
    const auto soft = prints.codes(kRecipeSeconds + "--grade 0"),
               hard = prints.codes(kRecipeSeconds + "--grade 5"), mixed = prints.codes("--split 12s@0 12s@5");
    for (std::size_t i = 0; i < mixed.size(); ++i)
        EXPECT_LE(mixed[i], std::min(soft[i], hard[i]) + kSamePrint);
}

TEST(RecipeOptions, AFlashAddsItsLightToEveryTone) {
    // One second of flash beside six of exposure is a sixth of clear film's light on every patch. The
    // negative that passes that much more is scanned at half the light, so that its clear film fits the
    // codes.
    const PatchPrints prints;
    std::vector<double> veiled;
    for (const double light : PatchPrints::kLight) veiled.push_back((light + 1.0 / 6) / 2);
    save_patches(prints.program, "veiled.tif", veiled);
    const std::string kept = "--flare 0 --callier 1 --reciprocity 1 --exposure 6s --grade 3 ";
    expect_same_print(prints.codes(kept + "--flash 1s@3 --base-fog 0"),
                      prints.codes(kept, "veiled.tif", "--whole --clear 0.5"));
}

TEST(RecipeOptions, RestrainerClearsTheBlankAndDoublingItClearsMore) {
    // Common practice, no source: more restrainer, less fog.
    const PatchPrints prints;
    double last = prints.codes(kRecipeSeconds).back();
    for (const char* dose : {"10", "20", "40"}) {
        const double now = prints.codes(kRecipeSeconds + "--restrainer " + dose).back();
        EXPECT_GT(now, last + kSamePrint) << dose;
        last = now;
    }
}

TEST(RecipeOptions, LongerDevelopmentFogsTheBlankFurther) {
    // Clerc, Photography: Theory and Practice, sections 556 to 557: whites clean at first, grey when forced.
    const PatchPrints prints;
    const double usual = prints.codes(kRecipeSeconds).back();
    EXPECT_NEAR(prints.codes(kRecipeSeconds + "--develop 90").back(), usual, kSamePrint);
    EXPECT_LT(prints.codes(kRecipeSeconds + "--develop 240").back(), usual - kSamePrint);
}

TEST(RecipeOptions, BleachClearsAndTheDoseIsTheTimeOverTheDilution) {
    const PatchPrints prints;
    const auto plain = prints.codes(kRecipeSeconds);
    double last = plain.back();
    for (const char* depth : {"50%", "100%", "150%"}) {
        const double now = prints.codes(kRecipeSeconds + "--bleach " + depth).back();
        EXPECT_GT(now, last) << depth;
        last = now;
    }
    // No tone darkens.
    const auto cleared = prints.codes(kRecipeSeconds + "--bleach 100%");
    for (std::size_t i = 0; i < plain.size(); ++i) EXPECT_GE(cleared[i], plain[i] - kSamePrint) << i;
    // A thinner bath does less in the same time; the same share of clearing is the same print in any bath.
    EXPECT_LT(prints.codes(kRecipeSeconds + "--bleach 40s --dilution 100").back(),
              prints.codes(kRecipeSeconds + "--bleach 40s --dilution 20").back() - kSamePrint);
    expect_same_print(prints.codes(kRecipeSeconds + "--bleach 100% --dilution 100"), cleared);
}

TEST(RecipeOptions, RedevelopmentBringsSilverBack) {
    // Cyclopedia of Photography, "Registration of Photographs": full redevelopment returns the image
    // practically unchanged.
    const PatchPrints prints;
    const auto plain = prints.codes(kRecipeSeconds),
               bleached = prints.codes(kRecipeSeconds + "--bleach 150%"),
               some = prints.codes(kRecipeSeconds + "--bleach 150% --redevelop 20"),
               full = prints.codes(kRecipeSeconds + "--bleach 150% --redevelop 600");
    for (std::size_t i = 0; i < plain.size(); ++i) {
        EXPECT_LT(some[i], bleached[i]) << i;
        EXPECT_LT(full[i], some[i] + kSamePrint) << i;
        EXPECT_NEAR(full[i], plain[i], 0.03 * 65535) << i;
    }
}

TEST(RecipeOptions, AGradeIsToldAsItWasGiven) {
    const PatchPrints prints;
    const std::string scan = " neg.tif --pack pack.toml --whole --clear 1 --grade 2.25 --fresh 1.75";
    const auto start = prints.program.run("start" + scan);
    EXPECT_THAT(start.out, AllOf(HasSubstr("through grade 2.25"), HasSubstr("at grade 1.75")));
    ASSERT_EQ(prints.program.run("plan -o sheets" + scan).code, 0);
    EXPECT_THAT(content_of(prints.program / "sheets/neg.txt"), HasSubstr("grade 2.25"));
    EXPECT_THAT(content_of(prints.program / "sheets/session.txt"), HasSubstr("grade 2.25"));
    EXPECT_THAT(content_of(prints.program / "sheets/neg-labels.csv"), HasSubstr(",2.25,"));
}

TEST(RecipeOptions, AnotherTemperatureOfTheDeveloperIsTold) {
    const PatchPrints prints;
    const auto said = [&](const std::string& develop) {
        prints.program.write("warm.toml",
                             "fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = 12\n" + develop);
        return prints.program
            .run("print neg.tif --pack pack.toml --whole --clear 1 --force -o out.tif --recipe warm.toml")
            .err;
    };
    EXPECT_THAT(said("[develop]\ntime_s = 60\ntemperature_c = 24\n"), HasSubstr("development 60 s at 24 C"));
    EXPECT_THAT(said("[develop]\ntime_s = 60\n"), testing::Not(HasSubstr(" C")));
}

}  // namespace
}  // namespace fogproof::tests
