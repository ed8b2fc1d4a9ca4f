// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of `plan`, asked of the program: what goes into the trays, which prints share a time, what is
// written where.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;

json plan(const PatchPrints& prints, const std::string& options, const std::string& negatives = "neg.tif") {
    const auto answer =
        prints.program.run("plan " + negatives + " --pack pack.toml --json --whole --clear 1 " + options);
    EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
    return json::parse(answer.out);
}

double in_tray(const json& mix) {
    return double(mix["concentrate_ml"]) + double(mix["restrainer_ml"]) + double(mix["water_ml"]);
}

TEST(PlanOptions, LitresAndTrayFillTheTray) {
    const PatchPrints prints;
    EXPECT_NEAR(in_tray(plan(prints, "--litres 1.5")["prints"][0]["developer"]), 1500, 1e-6);
    // 270 x 330 mm, 12 mm deep.
    EXPECT_NEAR(in_tray(plan(prints, "--tray 270x330x12")["prints"][0]["developer"]), 270 * 330 * 12e-3,
                1e-6);
    const auto both = prints.program.run("plan neg.tif --pack pack.toml --litres 1 --tray 270x330x12");
    EXPECT_NE(both.code, 0);
    EXPECT_THAT(both.err, HasSubstr("--litres"));
}

TEST(PlanOptions, WhatIsDecidedIsKept) {
    const PatchPrints prints;
    const json kept = plan(prints, "--grade 3 --restrainer 10 --develop 120 --bleach 40s")["prints"][0];
    EXPECT_EQ(kept["grade"], 3) << kept;
    EXPECT_EQ(kept["restrainer_ml_l"], 10);
    EXPECT_EQ(kept["develop_s"], 120);
    EXPECT_EQ(kept["bleach_s"], 40);
    EXPECT_EQ(plan(prints, "--no-bleach")["prints"][0]["bleach_s"], 0);
    EXPECT_LE(double(plan(prints, "--most-restrainer 5")["prints"][0]["restrainer_ml_l"]), 5);
}

TEST(PlanOptions, SheetSetsTheTraysVolumeAndTheSilver) {
    // Common practice, no source: 1 L fills a tray for 24 x 30 cm; others by their area.
    const PatchPrints prints;
    const json usual = plan(prints, ""), small = plan(prints, "--sheet 180x240");
    EXPECT_NEAR(double(usual["litres"]), 1, 1e-9);
    EXPECT_LT(double(small["litres"]), 0.75);
    EXPECT_LT(double(small["prints"][0]["silver_g"]), double(usual["prints"][0]["silver_g"]));
}

TEST(PlanOptions, MarginTakesItsBorderOffThePicture) {
    const PatchPrints prints;
    // Silver by area: that of the picture, less the wider its border, and that of the border, blank paper.
    const auto silver = [&](const std::string& margin) {
        return double(plan(prints, "--sheet 240x300 --margin " + margin)["prints"][0]["silver_g"]);
    };
    const double none = silver("0"), some = silver("40"), more = silver("80");
    // The patches are darker than blank paper on the whole, so that a border costs the bath less.
    EXPECT_GT(none, some);
    EXPECT_GT(some, more);
}

TEST(PlanOptions, DeveloperPartsAndDilutionAreMixed) {
    const PatchPrints prints;
    const json mixed = plan(prints, "--litres 1 --developer-parts 14 --dilution 30");
    EXPECT_NEAR(double(mixed["prints"][0]["developer"]["concentrate_ml"]), 1000.0 / 15, 1e-6);
    const json& load = mixed["session"]["loads"][0];
    EXPECT_EQ(double(load["dilution"]), 30);
    EXPECT_NEAR(double(load["concentrate_ml"]), 1000.0 / 31, 1e-6);
}

TEST(PlanOptions, AlikeSaysWhichPrintsShareATime) {
    const PatchPrints prints;
    save_patches(prints.program, "thin.tif", {1.0, 0.9, 0.8, 0.7, 0.62, 0.55, 0.5});
    const auto groups = [&](const std::string& options) {
        return int(plan(prints, options, "neg.tif thin.tif")["session"]["groups"]);
    };
    EXPECT_EQ(groups("--alike 10"), 1);
    EXPECT_EQ(groups("--alike 0.1"), 2);
}

TEST(PlanOptions, TogetherIsTheNumberOfSheetsInTheBleach) {
    const PatchPrints prints;
    for (const char* name : {"b.tif", "c.tif", "d.tif"})
        std::filesystem::copy_file(prints.program / "neg.tif", prints.program / name);
    const auto loads = [&](const std::string& options) {
        return plan(prints, options, "neg.tif b.tif c.tif d.tif")["session"]["loads"].size();
    };
    EXPECT_EQ(loads("--together 1"), 4U);
    EXPECT_EQ(loads(""), 2U);
    EXPECT_EQ(loads("--together 4"), 1U);
}

TEST(PlanOptions, SheetsLeftAreTold) {
    const PatchPrints prints;
    EXPECT_EQ(plan(prints, "--sheets-left 7")["sheets_left"], 7);
    const auto text = prints.program.run("plan neg.tif --pack pack.toml --sheets-left 1 --whole --clear 1");
    EXPECT_THAT(text.out, AllOf(HasSubstr("Left in the pack: 1"), HasSubstr("not enough")));
}

TEST(PlanOptions, AFolderGetsSheetsProofsAndTheSession) {
    const PatchPrints prints;
    std::filesystem::create_directory(prints.program / "sheets");
    const std::string words = "plan neg.tif --pack pack.toml --whole --clear 1 -o sheets";
    ASSERT_EQ(prints.program.run(words).code, 0);
    for (const char* name :
         {"neg.html", "neg.txt", "neg-proofs.html", "neg-labels.csv", "session.html", "session.txt"})
        EXPECT_TRUE(std::filesystem::exists(prints.program / "sheets" / name)) << name;
    EXPECT_NE(prints.program.run(words).code, 0) << "what is there is replaced by --force alone";
    EXPECT_EQ(prints.program.run(words + " --force").code, 0);
}

TEST(PlanOptions, TheSessionTellsTheDangersBeforeTheBleach) {
    const PatchPrints prints;
    ASSERT_EQ(prints.program.run("plan neg.tif --pack pack.toml --whole --clear 1 -o .").code, 0);
    const std::string page = content_of(prints.program / "session.html");
    const auto care = page.find("<h2>Take care</h2>"), bleach = page.find("<h2>Bleach</h2>");
    ASSERT_NE(care, std::string::npos);
    EXPECT_LT(care, bleach);
}

TEST(PlanOptions, WhatIsWantedIsPlannedFor) {
    const PatchPrints prints;
    for (const std::string wanted : {"", "--place 0.9@64%", "--mind 70%-100%=90%"}) {
        const auto start =
            prints.program.run("start neg.tif --pack pack.toml --whole --clear 1 --json " + wanted);
        ASSERT_EQ(start.code, 0) << start.err;
        EXPECT_EQ(plan(prints, wanted)["prints"][0]["exposure_s"],
                  json::parse(start.out)["best"]["exposure_s"])
            << wanted;
    }
}

// Exposure goes with the square of magnification + 1 (Clerc, Photography: Theory and Practice, Practical
// Enlarging): seconds for a picture that does not go on the sheet are those of none that does. The demo's
// frame is 36 mm long; 36 x 6.7 is 241, and 100 mm of it 2.8 times.
TEST(PlanOptions, APictureTooLargeForItsSheetIsWarnedOf) {
    const Program program;
    ASSERT_EQ(program.run("demo box").code, 0);
    const std::string plan = "plan box/negative.tif --pack box/pack.toml --quiet --sheet ";
    const auto small = program.run(plan + "9x12cm");
    EXPECT_THAT(
        small.err,
        testing::AllOf(testing::HasSubstr("warning"),
                       testing::HasSubstr("at magnification 6.7 the picture is 241 mm long"),
                       testing::HasSubstr("takes 100 mm"), testing::HasSubstr("give --magnification 2.8")));
    EXPECT_EQ(program.run(plan + "9x12cm --magnification 2.8").err, "");
    EXPECT_EQ(program.run(plan + "24x30cm").err, "");
}

}  // namespace
}  // namespace fogproof::tests
