// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Ways that lead to one print lead to one answer, asked of the program: worksheet and proofs, a place on a
// mirrored scan, a recipe's bath and the pack's. Held against each other. Common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>

#include "support/folded.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

const std::string kWhole = " --whole --clear 1 ";

class SameAnswer : public ::testing::Test {
  protected:
    Program::Answer said(const std::string& line) const {
        auto answer = prints.program.run(line);
        EXPECT_EQ(answer.code, 0) << line << "\n" << answer.err;
        return answer;
    }
    [[nodiscard]] json best(const std::string& options) const {
        return json::parse(said("start neg.tif --json --pack pack.toml" + kWhole + options).out)["best"];
    }
    const PatchPrints prints;
};

// Seconds of the cell that the page marks, "grade 2, 9.2 s, ...".
TEST_F(SameAnswer, TheRecommendedProofIsTheWorksheetsPrintWithItsLocalWork) {
    prints.program.write("burn.toml",
                         "fogproof_recipe = 1\n[[local]]\nwork = \"burn\"\nstops = 1.5\n"
                         "where = { edge = \"top\", reach = 60, soft = 10 }\n");
    said("plan neg.tif --pack pack.toml --local-work burn.toml --grade 2 -o sheets" + kWhole);
    const std::string sheet = folded(content_of(prints.program / "sheets/neg.txt")),
                      page = content_of(prints.program / "sheets/neg-proofs.html");
    std::smatch told, shown;
    ASSERT_TRUE(
        std::regex_search(sheet, told, std::regex("([0-9.]+) s through grade 2|grade 2[^0-9]+([0-9.]+) s")))
        << sheet;
    const std::string seconds = told[1].matched ? told[1].str() : told[2].str();
    const auto recommended = page.find("Recommended");
    ASSERT_NE(recommended, std::string::npos);
    EXPECT_THAT(page, HasSubstr("grade 2, " + seconds + " s, "));
}

TEST_F(SameAnswer, APlanThroughFilter00HasItsProofs) {
    const auto answer = said("plan neg.tif --pack pack.toml --grade 00 -o sheets" + kWhole);
    EXPECT_THAT(content_of(prints.program / "sheets/neg-proofs.html"), HasSubstr("grade 00"));
}

// The same pixels, scanned from the other side.
TEST_F(SameAnswer, APlaceOnAMirroredScanIsThatPlace) {
    const std::string first = std::to_string(kPatch / 4) + ",4," + std::to_string(kPatch / 2) + ",20";
    const json by_place = best("--grade 2 --no-bleach --place 0.9@" + first)["exposure_s"];
    EXPECT_EQ(best("--grade 2 --no-bleach --mirror --place 0.9@" + first)["exposure_s"], by_place);
    EXPECT_EQ(best("--grade 2 --no-bleach --mirror --mind " + first + "=90%")["exposure_s"],
              best("--grade 2 --no-bleach --mind " + first + "=90%")["exposure_s"]);
}

TEST_F(SameAnswer, APlaceBesideAPrintedClearEdgeIsThatPlace) {
    FilmScan film{
        .width = 720, .height = 500, .holder = 20, .left = 80, .top = 75, .right = 640, .bottom = 425};
    film.drawn().write_to_file((prints.program / "film.tif").c_str());
    const auto exposure = [&](const std::string& options) {
        return double(json::parse(said("start film.tif --json --pack pack.toml --grade 2 --no-bleach "
                                       "--place 0.5@120,100,80,60 " +
                                       options)
                                      .out)["best"]["exposure_s"]);
    };
    EXPECT_NEAR(std::log2(exposure("--clear-edge") / exposure("")), 0, 0.05);
    EXPECT_NEAR(std::log2(exposure("--clear-edge --mirror") / exposure("")), 0, 0.05);
}

TEST_F(SameAnswer, ABleachIsDoubtedInTheBathThatIsTold) {
    EXPECT_THAT(said("start neg.tif --pack pack.toml --bleach 20s --dilution 1+1000" + kWhole).err,
                HasSubstr("% of clearing"));
    const std::string strong =
        " neg.tif --pack pack.toml --restrainer 0 --develop 90 --bleach 900s --dilution 1+500";
    for (const char* verb : {"start", "plan"})
        EXPECT_THAT(said(verb + strong + kWhole).err, Not(HasSubstr("times clearing"))) << verb;
}

TEST_F(SameAnswer, ABrushedBleachOfSecondsKeepsTheBathOfItsRecipe) {
    prints.program.write(
        "brushed.toml",
        "fogproof_recipe = 1\n[bleach]\nparts = 10\n[[local]]\nwork = \"bleach\"\ntime_s = 20\n"
        "where = { oval = [50, 50, 20, 20], soft = 5 }\n");
    static_cast<void>(best("--local-work brushed.toml --recipe-out told.toml"));
    EXPECT_THAT(content_of(prints.program / "told.toml"), HasSubstr("parts = 10"));
    static_cast<void>(best("--local-work brushed.toml --dilution 1+20 --recipe-out typed.toml"));
    EXPECT_THAT(content_of(prints.program / "typed.toml"), HasSubstr("parts = 20"));
    prints.program.write("warm.toml",
                         "fogproof_recipe = 1\n[bleach]\ntemperature_c = 25\n[[local]]\n"
                         "work = \"bleach\"\ntime_s = 20\n"
                         "where = { oval = [50, 50, 20, 20], soft = 5 }\n");
    const auto refused = prints.program.run("start neg.tif --pack pack.toml --local-work warm.toml" + kWhole);
    EXPECT_EQ(refused.code, 78);
    EXPECT_THAT(refused.err, HasSubstr("its local bleach is for a bath of 25 C; expected: 20 C"));
}

// Two prints that share a load: the sheets of each say another time than the session does.
TEST_F(SameAnswer, ASessionTellsWhichTimesDifferFromTheWorksheets) {
    save_patches(prints.program, "soft.tif", {0.9, 0.7, 0.5, 0.4, 0.3, 0.2, 0.1});
    const auto answer = said("plan neg.tif soft.tif --pack pack.toml --alike 8 -o sheets" + kWhole);
    const std::string session = folded(content_of(prints.program / "sheets/session.txt"));
    const json numbers =
        json::parse(said("plan neg.tif soft.tif --json --pack pack.toml --alike 8" + kWhole).out);
    ASSERT_EQ(numbers["session"]["groups"], 1) << numbers["session"];
    ASSERT_NE(numbers["prints"][0]["bleach_s"], numbers["prints"][1]["bleach_s"]);
    EXPECT_THAT(session,
                testing::AllOf(HasSubstr("this session 1"), HasSubstr("on the worksheet and in the labels"),
                               HasSubstr("s, restrainer ")));
    EXPECT_THAT(folded(said("plan neg.tif --pack pack.toml" + kWhole).out),
                Not(HasSubstr("on the worksheet and in the labels")));
}

// f/11 is two stops from f/5.6 (ISO 517: marked numbers are powers of the root of two, rounded).
TEST_F(SameAnswer, MarkedApertureNumbersAreWholeStops) {
    const std::string asked = "--grade 2 --no-bleach --f-number ";
    const double at_8 = best(asked + "8")["exposure_s"];
    for (const auto& [number, stops] : {std::pair{"5.6", -1}, {"11", 1}, {"16", 2}, {"22", 3}})
        EXPECT_NEAR(std::log2(double(best(asked + number)["exposure_s"]) / at_8), stops, 0.01) << number;
    EXPECT_NEAR(std::log2(double(best(asked + "9")["exposure_s"]) / at_8), 2 * std::log2(9.0 / 8), 0.01);
}

TEST_F(SameAnswer, ASettingOfNegativesLeavesPositivesAlone) {
    std::filesystem::create_directories(prints.program / "set/fogproof");
    const auto start = [&](const std::string& settings, const std::string& options) {
        prints.program.write("set/fogproof/darkroom.toml", "fogproof_darkroom = 1\n[scanner]\n" + settings);
        return prints.program.run("start neg.tif --json --pack pack.toml --whole --no-bleach " + options,
                                  "XDG_CONFIG_HOME=\"$PWD/set\"");
    };
    const std::string of_negatives = "black = \"0.0005\"\nencoding = \"srgb\"\n";
    const auto plain = start("", "--as positive"), set = start(of_negatives, "--as positive");
    ASSERT_EQ(set.code, 0) << set.err;
    EXPECT_EQ(json::parse(set.out)["best"], json::parse(plain.out)["best"]);
    EXPECT_NE(json::parse(start(of_negatives, "").out)["best"], json::parse(start("", "").out)["best"]);
    EXPECT_EQ(start("", "--as positive --black 0.0005").code, 64) << "typed it is refused";
}

// A brush holds ferricyanide as a tray does.
TEST_F(SameAnswer, BleachThatIsOnlyBrushedOnIsMixedAndCautionedOf) {
    prints.program.write("face.toml",
                         "fogproof_recipe = 1\n[[local]]\nwork = \"bleach\"\nclearing_percent = 100\n"
                         "where = { oval = [60, 40, 20, 15], soft = 5 }\n");
    const std::string asked = "plan neg.tif --pack pack.toml --local-work face.toml" + kWhole;
    said(asked + "--no-bleach -o brushed");
    EXPECT_THAT(folded(content_of(prints.program / "brushed/session.txt")),
                testing::AllOf(HasSubstr("Brush bleach on as the worksheets say"), HasSubstr("Bleach 1+50"),
                               HasSubstr("g potassium ferricyanide and"), HasSubstr("poisonous"),
                               Not(HasSubstr("prints give it"))));
    said(asked + "--bleach 0 --toner sulphide -o toned");
    EXPECT_THAT(folded(content_of(prints.program / "toned/neg.txt")), Not(HasSubstr("for 0 s")));
}

TEST_F(SameAnswer, OneNegativeIsSpokenOfAsOne) {
    EXPECT_THAT(folded(said("plan neg.tif --pack pack.toml --sheets-left 1" + kWhole).out),
                Not(HasSubstr("all of them")));
}

// There is no filter in the drawer of somebody who prints on graded paper.
TEST_F(SameAnswer, GradedPaperIsNeverPrintedThroughAFilter) {
    said("pack new --white 0.08 --blank 0.31 --graded 3 -o graded.toml");
    said("start neg.tif --pack graded.toml --black-time 8s --recipe-out graded-recipe.toml" + kWhole);
    for (const char* line :
         {"start neg.tif --pack graded.toml --black-time 8s",
          "start neg.tif --pack graded.toml --black-time 8s --rescue 90s",
          "print neg.tif --pack graded.toml --black-time 8s --recipe graded-recipe.toml -o g.tif"}) {
        const auto answer = said(line + kWhole);
        EXPECT_THAT(answer.out + answer.err,
                    testing::AllOf(Not(HasSubstr("through grade")), Not(HasSubstr("at grade 3,")),
                                   Not(HasSubstr("the negative at grade"))))
            << line;
    }
    said("plan neg.tif --pack graded.toml --black-time 8s -o graded" + kWhole);
    EXPECT_THAT(content_of(prints.program / "graded/neg-proofs.html"), HasSubstr("\"words\":\"graded paper"));
}

// Over film as clear as none nothing is to be said of the open gate.
TEST_F(SameAnswer, AFlashBesideClearFilmIsNoOtherLight) {
    EXPECT_THAT(
        said("print neg.tif --pack pack.toml --grade 2 --flash 0.1s@0 --base-fog 0 -o f.tif --whole").err,
        Not(HasSubstr("open gate")));
    EXPECT_THAT(
        said("print neg.tif --pack pack.toml --grade 2 --flash 0.1s@0 --base-fog 0.3 -o h.tif --whole").err,
        HasSubstr("open gate: 1.0 stop more light than through clear film"));
}

// Whoever gains nothing by a strip prints as told.
TEST_F(SameAnswer, AStripNeverMakesAPrintWorse) {
    for (const char* options : {"", "--grade 2 --no-bleach", "--black-time 8s"}) {
        const json all = json::parse(said("start neg.tif --json --pack pack.toml" + kWhole + options).out);
        for (const json& point : all["by_grade"])
            EXPECT_LE(double(point["lightness_error_after_strip"]), double(point["lightness_error"]));
    }
}

// The trade's black is that of the usual developer: a restrainer asks for more light.
TEST_F(SameAnswer, ABlackTimeIsToldToBeOfTheUsualDevelopment) {
    EXPECT_THAT(folded(said("start --help").out), HasSubstr("usual development without restrainer"));
    prints.program.write("stops.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    EXPECT_THAT(
        folded(said("plan neg.tif --pack stops.toml" + kWhole).out),
        HasSubstr("develop 90 s without restrainer: it is the first band that is as black as the next"));
}

// A picture that does not go on its sheet has other seconds, whichever verb is asked.
TEST_F(SameAnswer, APictureTooLargeForItsSheetIsWarnedOfByEveryVerb) {
    FilmScan film{
        .width = 720, .height = 500, .holder = 20, .left = 80, .top = 75, .right = 640, .bottom = 425};
    vips::VImage drawn = film.drawn();
    constexpr double kPixelsPerMm = 40;
    drawn.tiffsave((prints.program / "large.tif").c_str(),
                   vips::VImage::option()->set("xres", kPixelsPerMm)->set("yres", kPixelsPerMm));
    const std::string asked = " large.tif --pack pack.toml --magnification 30 --sheet 18x24cm ";
    for (const std::string& line : {"start" + asked, "plan" + asked})
        EXPECT_THAT(said(line).err, HasSubstr("all seconds are too long for a picture that fits")) << line;
    EXPECT_THAT(said("print" + asked + "--border sheet -o large.png").err,
                HasSubstr("drawn 220 mm long, but all seconds are for magnification 30"));
}

}  // namespace
}  // namespace fogproof::tests
