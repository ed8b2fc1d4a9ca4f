// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of `start`, asked of the program: what is wanted, what is left out, what is drawn.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

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

TEST(StartOptions, TonesThatAreMindedComeOutCloser) {
    const PatchPrints prints;
    const json lights = start(prints, "--no-bleach --mind 70%-100%=90%"),
               darks = start(prints, "--no-bleach --mind 0%-30%=90%");
    EXPECT_NE(double(lights["best"]["exposure_s"]), double(darks["best"]["exposure_s"]));
    // How much they count matters too.
    const json less = start(prints, "--no-bleach --mind 70%-100%=55%");
    EXPECT_NE(double(lights["best"]["lightness_error"]), double(less["best"]["lightness_error"]));
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
    for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_NEAR(found[i], wanted[i], 0.04 * 65535) << i;
}

TEST(StartOptions, LadderIsAPictureOfThePrintPulledTooEarlyToTooLate) {
    const PatchPrints prints;
    ASSERT_EQ(prints.program.run("start neg.tif --pack pack.toml --ladder ladder.png" + kFrame).code, 0);
    const VImage ladder = VImage::new_from_file((prints.program / "ladder.png").c_str());
    EXPECT_GT(ladder.width(), 3 * 7 * kPatch);
}

TEST(StartOptions, RescueSaysWhatRedevelopmentBringsBack) {
    const PatchPrints prints;
    const auto answer = prints.program.run("start neg.tif --pack pack.toml --rescue 400s" + kFrame);
    EXPECT_EQ(answer.code, 0);
    EXPECT_THAT(answer.out, HasSubstr("redevelop"));
    const auto as_json = prints.program.run("start neg.tif --pack pack.toml --json --rescue 400s" + kFrame);
    EXPECT_TRUE(json::accept(as_json.out)) << as_json.out;
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
    EXPECT_THAT(
        text, HasSubstr("all times are for the dry print, dry-down included; of a band chosen wet give 10 % "
                        "less"));
}

}  // namespace
}  // namespace fogproof::tests
