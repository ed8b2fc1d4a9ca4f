// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Recipes, axes, labels and pictures to match that can be worked out and are hardly meant: each is asked
// about in one warning that says how the likely meaning is written, quiet or not; sound ones are not.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

class Plausibility : public testing::Test {
  protected:
    void SetUp() override { make_typed_files(program_); }
    // stderr of a run that is to succeed, with --quiet.
    std::string said(const std::string& words, int code = 0) const {
        const auto answer = program_.run("--quiet " + words);
        EXPECT_EQ(answer.code, code) << words << '\n' << answer.err;
        return answer.err;
    }
    std::string printed(const std::string& recipe) const {
        return said("print scan.tif --pack pack.toml --grade 2 -o out.png --force " + recipe);
    }
    static long lines(const std::string& text) { return std::ranges::count(text, '\n'); }
    Program program_;
};

struct Doubtful {
    const char *options, *told, *meant;
};
// The pack's own soak and time of appearance are 5 s and 8 s.
const Doubtful kDoubtful[] = {
    {"--bleach 1.5", "bleach of 1.5 s is over before the bath reaches the silver, after 5 s",
     "90s for 1.5 minutes"},
    {"--bleach 0.5%", "bleach of 0.5 % is next to nothing", "50%"},
    {"--bleach 2000s", "times clearing, and takes the picture too; the blank clears in",
     "the first 5 s of which only soak the paper; the starting exposure is that of a print pulled at 1.5 "
     "times"},
    {"--bleach 900%", "bleach of 900 % is 9 times clearing", "pulled at 1.5 times"},
    {"--develop 2", "development of 2 s ends before there is an image, which appears after 8 s",
     "120s for 2 minutes"},
    {"--restrainer 0.02", "restrainer 0.02 ml/L is next to none", "20 for 2 %"},
    {"--bleach 40s --redevelop 2", "redevelopment of 2 s", "120s for 2 minutes"},
};

TEST_F(Plausibility, OfARecipeIsAskedAboutInOneWarning) {
    for (const auto& each : kDoubtful) {
        const std::string said = printed(each.options);
        EXPECT_THAT(said,
                    AllOf(HasSubstr("fogproof: warning: "), HasSubstr(each.told), HasSubstr(each.meant)))
            << each.options;
        EXPECT_EQ(lines(said), 1) << said;
    }
}

// Common practice, no source: a flash lifts the lights; one that prints a tone by itself greys the whole
// sheet.
TEST_F(Plausibility, OfALongFlashIsDoubted) {
    EXPECT_THAT(printed("--exposure 20s --flash 20s"),
                HasSubstr("the flash alone lays a grey over the whole"));
    EXPECT_THAT(printed("--exposure 20s --flash 0.05s"), Not(HasSubstr("flash")));
}

// The numbers of one warning agree, once the soaking is taken off both times.
TEST_F(Plausibility, OfALongBleachIsToldInNumbersThatAgree) {
    const std::string told = printed("--bleach 1205s");
    std::smatch found;
    ASSERT_TRUE(std::regex_search(
        told, found,
        std::regex("bleach of 1205 s is ([0-9.]+) times clearing.* clears in ([0-9]+) s, the first 5 s")))
        << told;
    const double times = std::stod(found[1]), clears = std::stod(found[2]);
    EXPECT_NEAR(times, 1200 / (clears - 5), 0.06 * times) << "both to two digits";
}

TEST_F(Plausibility, OfSoundRecipesIsNotDoubted) {
    for (const char* sound :
         {"", "--bleach 40s", "--bleach 50%", "--bleach 150%", "--develop 60", "--restrainer 5",
          "--bleach 100% --redevelop 20", "--develop 180 --restrainer 60 --bleach 200%"})
        EXPECT_EQ(printed(sound), "") << sound;
}

TEST_F(Plausibility, IsAskedAboutOnceForAWholeAxisAndForManyNegatives) {
    const std::string grid = said(
        "grid scan.tif --pack pack.toml -o out.png --cell 80 --across grade=1,2,3 "
        "--down bleach=0,1s,2s,3s");
    EXPECT_THAT(grid, HasSubstr("bleach of 1 s"));
    EXPECT_EQ(lines(grid), 1) << grid;
    const auto numbers = nlohmann::json::parse(content_of(program_ / "out.png.json"));
    EXPECT_THAT(numbers.dump(), HasSubstr("bleach of 1 s"));
    const std::string batch =
        said("print scan.tif other.tif --pack pack.toml -o folder --grade 2 --develop 2 --format png");
    EXPECT_EQ(lines(batch), 1) << batch;
}

TEST_F(Plausibility, OfARecipeFileAndOfACurveIsAskedAbout) {
    program_.write("recipe.toml", "fogproof_recipe = 1\n[develop]\ntime_s = 2\nrestrainer_ml_l = 0.02\n");
    const std::string recipe = printed("--recipe recipe.toml");
    EXPECT_THAT(recipe, AllOf(HasSubstr("development of 2 s"), HasSubstr("restrainer 0.02")));
    const auto curve = program_.run("pack show pack.toml --json --at grade=2,bleach=1.5s");
    EXPECT_EQ(curve.code, 0);
    EXPECT_THAT(curve.err, HasSubstr("warning: bleach of 1.5 s"));
    EXPECT_THAT(nlohmann::json::parse(curve.out)["warnings"].dump(), HasSubstr("bleach of 1.5 s"));
}

TEST_F(Plausibility, OfLabelsAndSearchBoundsIsAskedAbout) {
    const std::string labels =
        said("read instrument.txt -o out.csv --develop 1.5 --bleach 2 --restrainer 0.02");
    EXPECT_THAT(labels, AllOf(HasSubstr("90s for 1.5 minutes"), HasSubstr("120s for 2 minutes"),
                              HasSubstr("restrainer 0.02")));
    EXPECT_EQ(said("read instrument.txt -o sound.csv --develop 90 --bleach 40 --restrainer 20"), "");
    EXPECT_EQ(said("read instrument.txt -o fixed.csv --develop 0 --exposure 0"), "");
    EXPECT_THAT(said("start scan.tif --pack pack.toml --most-restrainer 0.02"), HasSubstr("restrainer 0.02"));
    EXPECT_THAT(said("start scan.tif --pack pack.toml --rescue 2"), HasSubstr("120s for 2 minutes"));
    EXPECT_EQ(said("start scan.tif --pack pack.toml --rescue 600s"), "");
    EXPECT_THAT(said("start scan.tif --pack pack.toml --dry-down 0.08"), HasSubstr("8 for 8 %"));
}

TEST_F(Plausibility, RedevelopmentWithoutBleachIsRefused) {
    for (const char* words :
         {"print scan.tif --pack pack.toml -o out.tif --redevelop 60",
          "print scan.tif --pack pack.toml -o out.tif --redevelop 60 --bleach 0",
          "grid scan.tif --pack pack.toml -o out.png --across grade=1,2 --down redevelop=0,30,60",
          "pack show pack.toml --json --at redevelop=60"}) {
        const std::string err = said(words, 64);
        EXPECT_THAT(err, AllOf(HasSubstr("without a bleach"), HasSubstr("redevelop"))) << words;
    }
    EXPECT_EQ(said("grid scan.tif --pack pack.toml -o out.png --cell 80 --across redevelop=0,30 --down "
                   "bleach=0,100%"),
              "");
}

// A frame with a light and a dark place, as a positive seen from the printing side, or another one.
vips::VImage positive(bool same, bool turned) {
    const auto light = [same](int x, int y, int) {
        const double u = x / 120.0, v = y / 80.0;
        const double tone = same ? 0.2 + 0.6 * u * (1 - 0.4 * v) + 0.15 * std::sin(9 * v)
                                 : 0.5 + 0.4 * std::sin(7 * u + 2) * std::cos(11 * v);
        return std::clamp(tone, 0.02, 1.0) * 255;
    };
    const auto picture = raster<std::uint8_t>(120, 80, 1, light, VIPS_INTERPRETATION_B_W);
    return turned ? picture.rot180() : picture;
}

TEST_F(Plausibility, OfAPictureToMatchIsHeldAgainstTheFrameByPlace) {
    const auto save = [&](const vips::VImage& image, const char* name) {
        image.write_to_file((program_ / name).c_str());
    };
    save(positive(true, false), "frame.png");
    save(positive(true, true), "turned.png");
    save(positive(true, false).crop(6, 5, 105, 70), "cropped.png");
    save(positive(false, false), "another.png");
    const std::string start = "start frame.png --as positive --whole --pack pack.toml --match ";
    for (const char* same : {"frame.png", "turned.png", "cropped.png"})
        EXPECT_THAT(said(start + same), Not(HasSubstr("--match"))) << same;
    const auto answer = program_.run("--quiet " + start + "another.png --json");
    EXPECT_THAT(answer.err, AllOf(HasSubstr("warning: "),
                                  HasSubstr("--match another.png does not look like this frame")));
    EXPECT_THAT(nlohmann::json::parse(answer.out)["warnings"].dump(), HasSubstr("another.png"));
    EXPECT_EQ(
        program_.run("plan frame.png --as positive --whole --pack pack.toml --match another.png -o sheets")
            .code,
        0);
    EXPECT_THAT(content_of(program_ / "sheets/frame.txt"), HasSubstr("does not look like this"));
}

}  // namespace
}  // namespace fogproof::tests
