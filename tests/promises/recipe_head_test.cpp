// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Seconds of a recipe hold for one magnification, one f-number and one light. Exposure goes with (m + 1)^2
// (Clerc, c. 1937, "Theory & Practice", Practical Enlarging): from 5 to 11 times, two stops. A stop of the
// lens or of the light is a factor of two by definition.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::string kScan = " neg.tif --whole --clear 1 --force ";
const std::string kWarned = "the recipe's seconds of ";

class RecipeHead : public testing::Test {
  protected:
    RecipeHead() {
        const std::string pack = content_of(prints_.program / "pack.toml");
        prints_.program.write("told.toml", pack + "magnification = 5\nf_number = 8\n");
    }
    std::string said(const std::string& words) const {
        const auto answer = prints_.program.run(words + kScan);
        EXPECT_EQ(answer.code, 0) << words << answer.err;
        return answer.err;
    }
    std::string printed(const std::string& words, const std::string& pack = "told.toml") const {
        return said("print -o out.png --pack " + pack + " " + words);
    }
    void start(const std::string& words) const {
        said("start --grade 2 --pack told.toml --recipe-out " + words);
    }

    PatchPrints prints_;
};

TEST_F(RecipeHead, IsToldBesideTheSecondsAndHeldAgainstThePrints) {
    start("five.toml --magnification 5");
    EXPECT_THAT(content_of(prints_.program / "five.toml"),
                AllOf(HasSubstr("\nmagnification = 5\n"), HasSubstr("\nf_number = 8\n")));
    EXPECT_THAT(
        printed("--recipe five.toml --magnification 11"),
        AllOf(HasSubstr(kWarned + "exposure are for magnification 5 and f/8, and the enlarger is set to "
                                  "magnification 11 and f/8"),
              HasSubstr("2 stops less light"), HasSubstr(" 4 times the seconds")));
    EXPECT_THAT(printed("--recipe five.toml --f-number 11.3"), HasSubstr("1 stop less light"));
    EXPECT_THAT(printed("--recipe five.toml"), Not(HasSubstr(kWarned)));
    // Seconds that are typed, or of a grid's axis, are for the enlarger as it is set; so are stops.
    for (const char* own : {"--exposure 30s", "--exposure +1", "--split '4s@0 7s@5'"})
        EXPECT_THAT(printed("--recipe five.toml --magnification 11 " + std::string(own)),
                    Not(HasSubstr(kWarned)))
            << own;
    const std::string grid =
        "grid -o grid.tif --pack told.toml --recipe five.toml --down bleach=0 --magnification 11 ";
    EXPECT_THAT(said(grid + "--across exposure=20s,40s"), Not(HasSubstr(kWarned)));
    // What it makes up for it is the print that was meant.
    const double seconds = nlohmann::json::parse(
        prints_.program.run("start --grade 2 --pack told.toml --json" + kScan).out)["best"]["exposure_s"];
    prints_.program.write(
        "meant.toml", "fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = " + std::to_string(seconds) +
                          "\n[enlarger]\nmagnification = 5\nf_number = 8\n");
    const std::string pack = "--recipe meant.toml ";
    expect_same_print(prints_.codes(pack), prints_.codes(pack + "--magnification 11 --exposure " +
                                                         std::to_string(4 * seconds) + "s"));
}

TEST_F(RecipeHead, AFlashAndABurnHaveSecondsToo) {
    const std::string head = "[enlarger]\nmagnification = 5\n";
    prints_.program.write("flash.toml", "fogproof_recipe = 1\n[[flash]]\ntime_s = 0.2\n" + head);
    prints_.program.write("burn.toml",
                          "fogproof_recipe = 1\n" + head +
                              "[[local]]\nwork = \"burn\"\ntime_s = 4\nwhere = { edge = \"top\", "
                              "reach = 50, soft = 30 }\n");
    EXPECT_THAT(printed("--magnification 11 --exposure 60s --recipe flash.toml"),
                HasSubstr(kWarned + "flash are for"));
    EXPECT_THAT(printed("--magnification 11 --recipe flash.toml --flash 0.3s"), Not(HasSubstr(kWarned)));
    EXPECT_THAT(printed("--magnification 11 --recipe burn.toml"), HasSubstr(kWarned + "burn are for"));
    for (const char* verb : {"start", "plan"}) {
        EXPECT_THAT(said(std::string(verb) + " --pack told.toml --magnification 11 --local-work burn.toml"),
                    HasSubstr(kWarned + "burn are for"));
        EXPECT_THAT(said(std::string(verb) + " --pack told.toml --local-work burn.toml"),
                    Not(HasSubstr(kWarned)));
    }
}

TEST_F(RecipeHead, TheLightOfTheDayBelongsToIt) {
    start("bright.toml --light +1");
    EXPECT_THAT(content_of(prints_.program / "bright.toml"), HasSubstr("\nlight_stops = 1\n"));
    EXPECT_THAT(printed("--recipe bright.toml"),
                AllOf(HasSubstr("with a light 1 stop brighter than when the pack was read"),
                      HasSubstr("1 stop less light"), HasSubstr("2 times the seconds")));
    EXPECT_THAT(printed("--recipe bright.toml --light +1"), Not(HasSubstr(kWarned)));
    // One makes up for the other.
    EXPECT_THAT(printed("--recipe bright.toml --f-number 5.66"), Not(HasSubstr(kWarned)));
}

TEST_F(RecipeHead, APrintKeepsItAndAGridHasNone) {
    printed("--exposure 10s --magnification 7");
    EXPECT_THAT(said("print -o again.png --pack told.toml --recipe out.png"),
                HasSubstr("are for magnification 7 and f/8"));
    said("grid -o grid.tif --pack told.toml --exposure 10s --across grade=1,2 --down bleach=0");
    const auto refused = prints_.program.run("print -o again.png --pack told.toml --recipe grid.tif" + kScan);
    EXPECT_EQ(refused.code, 65);
    EXPECT_THAT(refused.err,
                HasSubstr("grid.tif: is a grid of prints, of which each has a recipe of its own"));
}

TEST_F(RecipeHead, WhereNobodyTellsItThatIsSaid) {
    const std::string start = "start --grade 2 --pack pack.toml --recipe-out ";
    const std::string guessed = "the pack does not say for which magnification and f-number its seconds are";
    said(start + "any.toml");
    EXPECT_THAT(content_of(prints_.program / "any.toml"), HasSubstr("\n# magnification =\n"));
    EXPECT_THAT(printed("--recipe any.toml --magnification 11", "pack.toml"),
                AllOf(HasSubstr(guessed), Not(HasSubstr(kWarned))));
    EXPECT_THAT(said(start + "wide.toml --f-number 5.6"), HasSubstr(guessed));
    EXPECT_THAT(printed("--recipe wide.toml", "pack.toml"),
                AllOf(HasSubstr("nothing says how the enlarger is set for this print: give --f-number 5.6"),
                      Not(HasSubstr(guessed))));
    EXPECT_THAT(printed("--recipe wide.toml", "told.toml"), HasSubstr("1 stop less light"));
}

}  // namespace
}  // namespace fogproof::tests
