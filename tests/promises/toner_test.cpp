// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Toned prints, asked of the program: pixels, numbers, words. What a toner does is the trade's (darkroom
// handbooks on sepia and split toning; cautions of IPCS ICSC 0680 for thiourea and US Army subcourse SS0513
// for sulphide).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "pack/schema.hpp"
#include "support/folded.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

constexpr int kRed = 0, kBlue = 2;
const std::string kUnder = "--exposure 20s --grade 2 ";

// Red over blue of each patch, the brightest of clear film last: what the eye takes for warmth.
std::vector<double> warmth(const PatchPrints& prints, const std::string& options) {
    static_cast<void>(prints.codes(kUnder + options));
    const vips::VImage print = vips::VImage::new_from_file((prints.program / "out.tif").c_str());
    std::vector<double> all;
    const int count = int(PatchPrints::kLight.size());
    for (int i = 0; i < count; ++i) {
        const auto pixel = print.getpoint(int((i + 0.5) * print.width() / count), print.height() / 2);
        all.push_back(pixel[kRed] / pixel[kBlue]);
    }
    return all;
}

TEST(Toner, SepiaAfterAFullBleachIsWarmInEveryTone) {
    const PatchPrints prints;
    const auto plain = warmth(prints, ""), sulphide = warmth(prints, "--bleach 7200s --toner sulphide"),
               thiourea = warmth(prints, "--bleach 7200s --toner thiourea");
    for (std::size_t i = 0; i < plain.size(); ++i) {
        EXPECT_GT(sulphide[i], 1.05 * plain[i]) << "patch " << i;
        EXPECT_GT(thiourea[i], 1.05 * sulphide[i] - 0.05) << "patch " << i;
    }
}

TEST(Toner, SepiaAfterAPartialBleachWarmsLightsMoreThanDarks) {
    const PatchPrints prints;
    const auto plain = warmth(prints, ""), split = warmth(prints, "--bleach 60% --toner sulphide"),
               whole = warmth(prints, "--bleach 7200s --toner sulphide");
    // Clear film prints the darkest patch.
    const auto share = [&](std::size_t i) { return (split[i] - plain[i]) / (whole[i] - plain[i]); };
    EXPECT_GT(share(PatchPrints::kLight.size() - 1), 0.5);
    EXPECT_LT(share(0), 0.25);
    for (std::size_t i = 1; i < plain.size(); ++i) EXPECT_GE(share(i), share(i - 1) - 0.02) << i;
}

TEST(Toner, SeleniumNeedsNoBleachAndKeepsTheLights) {
    const PatchPrints prints;
    const auto plain = prints.codes(kUnder), toned = prints.codes(kUnder + "--toner selenium");
    EXPECT_NEAR(toned.back(), plain.back(), 0.01 * plain.back());
    EXPECT_NE(toned.front(), plain.front());
}

TEST(Toner, SepiaWithoutABleachIsRefused) {
    const PatchPrints prints;
    const auto answer =
        prints.program.run("print neg.tif --pack pack.toml -o out.tif --whole --clear 1 --toner thiourea");
    EXPECT_EQ(answer.code, 64);
    EXPECT_THAT(answer.err, HasSubstr("thiourea without a bleach before it"));
}

TEST(Toner, AGreyProfileIsRefusedForATonedPrint) {
    const PatchPrints prints;
    for (const char* verb : {"print", "grid"}) {
        const auto answer = prints.program.run(
            std::string(verb) +
            " neg.tif --pack pack.toml -o out.png --whole --clear 1 --toner selenium --profile grey");
        EXPECT_EQ(answer.code, 64) << verb;
        EXPECT_THAT(answer.err, HasSubstr("lose the colour")) << verb;
    }
}

TEST(Toner, OfARecipeFileIsTheOneOfTheOptionAndComesBackOutOfThePrint) {
    const PatchPrints prints;
    prints.program.write("recipe.toml",
                         "fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = 20\n[bleach]\ntime_s = "
                         "90\n[redevelop]\ntoner = \"thiourea\"\n");
    const auto told = prints.codes("--exposure 20s --grade 2 --bleach 90s --toner thiourea");
    EXPECT_EQ(prints.codes("--recipe recipe.toml"), told);
    static_cast<void>(prints.program.run(
        "print neg.tif --pack pack.toml -o first.tif --whole --clear 1 --recipe recipe.toml"));
    EXPECT_EQ(prints.codes("--recipe first.tif"), told);
    EXPECT_EQ(prints.codes("--recipe recipe.toml --redevelop 180"), told) << "the usual time";
    expect_another_print(prints.codes("--recipe recipe.toml --redevelop 20"), told);
}

// What can hurt somebody is told however quiet the program is asked to be.
TEST(Toner, ItsCautionIsToldByEveryVerbAndEvenWhenQuiet) {
    const PatchPrints prints;
    const std::string of_selenium = "caution: neg.tif: Selenium toner is poisonous",
                      under = " neg.tif --pack pack.toml --whole --clear 1 --toner selenium";
    for (const std::string verb : {"print -o quiet.tif", "grid -o quiet.png", "start", "plan -o quiet"})
        for (const char* quiet : {"", " --quiet"}) {
            const auto answer = prints.program.run(verb + under + " --force" + quiet);
            EXPECT_EQ(answer.code, 0) << verb << answer.err;
            EXPECT_THAT(answer.err, HasSubstr(of_selenium)) << verb;
            EXPECT_EQ(answer.err.find("is assumed, a judgement") == std::string::npos, *quiet != 0) << verb;
        }
}

TEST(Toner, IsAnAxisOfAGrid) {
    const PatchPrints prints;
    const auto answer = prints.program.run(
        "grid neg.tif --pack pack.toml --whole --clear 1 --force -o grid.png --html --across "
        "toner=none,sulphide,selenium --down bleach=0,100%");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.err, HasSubstr("The colour of sulphide toner is assumed, a judgement"));
    const json grid = json::parse(content_of(prints.program / "grid.png.json"));
    EXPECT_EQ(grid["across"]["quantity"], "toner");
    EXPECT_FALSE(grid["cells"][0].contains("toner"));
    EXPECT_EQ(grid["cells"][4]["toner"], "sulphide");
    EXPECT_EQ(grid["cells"][4]["redevelop_s"], 180);
    EXPECT_EQ(grid["cells"][5]["toner"], "selenium");
    const std::string page = content_of(prints.program / "grid.png.html");
    EXPECT_THAT(page, HasSubstr("sulphide 180 s"));
    EXPECT_THAT(page, HasSubstr("Sulphide toner gives off hydrogen sulphide"));
    EXPECT_THAT(page, HasSubstr("Selenium toner is poisonous"));
}

TEST(Toner, AMeasuredPatchInThePackDecidesItsColour) {
    const PatchPrints prints;
    const auto assumed = warmth(prints, "--bleach 7200s --toner sulphide");
    prints.program.write("pack.toml", content_of(prints.program / "pack.toml") +
                                          "[sulphide]\npatch_l = 45\npatch_a = 9\npatch_b = 30\n");
    const auto measured = warmth(prints, "--bleach 7200s --toner sulphide");
    EXPECT_GT(measured[3], 1.1 * assumed[3]);
    const auto answer = prints.program.run(
        "print neg.tif --pack pack.toml -o out.tif --force --whole --clear 1 --bleach 7200s --toner "
        "sulphide");
    EXPECT_THAT(answer.err, Not(HasSubstr("is assumed")));
}

TEST(Toner, PackShowCallsItsNumbersAssumed) {
    const PatchPrints prints;
    const auto all = prints.program.run("pack show pack.toml --all");
    for (const auto& section : kTonerSections)
        EXPECT_THAT(all.out, testing::ContainsRegex(std::string(section) + ".covering .*assumed"));
}

TEST(Toner, StartSeeksThePrintThatGoesIntoIt) {
    const PatchPrints prints;
    const std::string start = "start neg.tif --pack pack.toml --whole --clear 1 --json ";
    const auto plain = prints.program.run(start), toned = prints.program.run(start + "--toner selenium");
    ASSERT_EQ(toned.code, 0) << toned.err;
    EXPECT_FALSE(json::parse(plain.out)["best"].contains("toner"));
    EXPECT_EQ(json::parse(toned.out)["best"]["toner"], "selenium");
    const auto sepia = prints.program.run(start + "--toner sulphide");
    EXPECT_EQ(sepia.code, 64);
    EXPECT_THAT(sepia.err, HasSubstr("sulphide tones only bleached silver, but no bleach is given"));
}

TEST(Toner, WorksheetsOfAPlanHaveItsStepAndItsCautions) {
    const PatchPrints prints;
    const std::string plan = "plan neg.tif --pack pack.toml --whole --clear 1 ";
    const auto toned = prints.program.run(plan + "--toner selenium");
    ASSERT_EQ(toned.code, 0) << toned.err;
    EXPECT_THAT(toned.out, HasSubstr("mixed as its label"));
    EXPECT_THAT(toned.out, HasSubstr("Selenium toner is poisonous"));
    const auto plain = prints.program.run(plan);
    EXPECT_THAT(plain.out, Not(HasSubstr("elenium")));
    EXPECT_EQ(prints.program.run(plan + "--toner sulphide").code, 64);
}

// Common practice, no source: toned silver has other densities than the silver that a fit knows. Such a print
// teaches it nothing.
TEST(Toner, PrintsGetNoLabelsToReadThemBy) {
    const PatchPrints prints;
    const std::string plan = "plan neg.tif --pack pack.toml --whole --clear 1 ";
    ASSERT_EQ(prints.program.run(plan + "-o plain").code, 0);
    EXPECT_TRUE(std::filesystem::exists(prints.program / "plain/neg-labels.csv"));
    ASSERT_EQ(prints.program.run(plan + "--toner selenium -o toned").code, 0);
    EXPECT_FALSE(std::filesystem::exists(prints.program / "toned/neg-labels.csv"));
    const std::string sheet = folded(content_of(prints.program / "toned/neg.txt"));
    EXPECT_THAT(sheet, HasSubstr("the program cannot read toned silver"));
    EXPECT_THAT(sheet, Not(HasSubstr("holds this print's labels")));
}

// Common practice, no source: selenium comes after fixing and a good wash.
TEST(Toner, TheSessionEndsWithTheTonerWithABleachOrWithout) {
    const PatchPrints prints;
    const std::string plan = "plan neg.tif --pack pack.toml --whole --clear 1 ";
    const std::string toned = "Wash well, then tone each print as its worksheet says.";
    const auto session = [&](const std::string& options, const std::string& to) {
        const auto answer = prints.program.run(plan + options + " -o " + to);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return folded(content_of(prints.program / (to + "/session.txt")));
    };
    const std::string bleached = session("--toner selenium --bleach 40s", "bleached"),
                      unbleached = session("--toner selenium --no-bleach", "unbleached");
    EXPECT_LT(bleached.find("Fix again"), bleached.find(toned));
    EXPECT_THAT(bleached, testing::AllOf(HasSubstr(toned), Not(HasSubstr("Wash as the paper asks"))));
    EXPECT_THAT(unbleached, HasSubstr(toned));
    EXPECT_THAT(session("--bleach 40s", "plain"),
                testing::AllOf(HasSubstr("Wash as the paper asks"), Not(HasSubstr(toned))));
}

TEST(Toner, WorksheetsOfSepiaBleachByTheClockAndDoNotFixBeforeTheToner) {
    // Common practice, no source: sepia tones what the bleach left as halide, which fixer would take away.
    const PatchPrints prints;
    const auto sepia = prints.program.run(
        "plan neg.tif --pack pack.toml --whole --clear 1 --toner sulphide --bleach 40s -o sheets");
    ASSERT_EQ(sepia.code, 0) << sepia.err;
    const std::string sheet = content_of(prints.program / "sheets/neg.txt"),
                      session = content_of(prints.program / "sheets/session.txt");
    const auto flat = [](const std::string& text) { return folded(text); };
    EXPECT_THAT(flat(sheet),
                HasSubstr("C for 40 s. Take it out by the clock: the toner brings back all that"));
    EXPECT_THAT(flat(sheet), HasSubstr("Do not fix before the toner"));
    EXPECT_THAT(flat(sheet), Not(HasSubstr("Fix again")));
    EXPECT_THAT(flat(sheet), HasSubstr("develop, bleach and tone it like the print, and choose"));
    EXPECT_THAT(flat(sheet), HasSubstr("hydrogen sulphide"));
    EXPECT_THAT(flat(session), HasSubstr("Do not fix before the toner"));
    EXPECT_THAT(flat(session), Not(HasSubstr("Fix again")));
    EXPECT_THAT(flat(session), HasSubstr("When to take it out"));
    EXPECT_THAT(
        flat(prints.program
                 .run("start neg.tif --pack pack.toml --whole --clear 1 --toner sulphide --bleach 40s")
                 .out),
        HasSubstr("pull Take it out by the clock"));
}

TEST(Toner, WithoutATimeInItTonesNothingAndSaysSo) {
    const PatchPrints prints;
    const auto answer = prints.program.run(
        "print neg.tif --pack pack.toml --whole --clear 1 -o out.tif --force --bleach 40s --toner sulphide "
        "--redevelop 0");
    EXPECT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.err, testing::HasSubstr("so nothing is toned"));
}

}  // namespace
}  // namespace fogproof::tests
