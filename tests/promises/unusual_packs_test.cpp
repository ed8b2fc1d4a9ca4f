// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs at the edge of what a description may say, asked of the program: an emulsion between two grades, next
// to no fog, a filter that nobody read. Common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "fogproof/pack/file.hpp"
#include "support/own_strips.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

const std::string kPack =
    "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[anchor]\nknown = true\n";

class UnusualPacks : public ::testing::Test {
  protected:
    Program::Answer said(const std::string& line) const {
        auto answer = prints.program.run(line);
        EXPECT_EQ(answer.code, 0) << line << "\n" << answer.err;
        return answer;
    }
    [[nodiscard]] json start(const std::string& pack, const std::string& options) const {
        return json::parse(said("start neg.tif --json --whole --clear 1 --pack " + pack + " " + options).out);
    }
    const PatchPrints prints;
};

TEST_F(UnusualPacks, AnEmulsionBetweenTwoGradesHasOneOfItsOwn) {
    prints.program.write("narrow.toml", kPack + "[grains]\nspread = 0.24\ngreen_spread = 0.05\n");
    const json told = start("narrow.toml", "");
    ASSERT_EQ(told["by_grade"].size(), 1);
    const double grade = told["best"]["grade"];
    EXPECT_GT(grade, std::floor(grade));
    said("print neg.tif --pack narrow.toml --whole --clear 1 -o print.png --grade " +
         told["best"]["grade"].dump());
    for (const char* line : {"pack show narrow.toml", "plan neg.tif --pack narrow.toml --whole --clear 1",
                             "grid neg.tif --pack narrow.toml --whole --clear 1 -o grid.png"})
        EXPECT_EQ(prints.program.run(line).code, 0) << line;
}

// Of papers that may have no fog at all, none is cleared sooner than in no time.
TEST_F(UnusualPacks, NextToNoFogLeavesTheBleachItsSeconds) {
    said("pack new --white 0.08 --blank 0.115 --head diffuser -o light.toml");
    const json told = start("light.toml", "--bleach 100% --restrainer 0 --black-time 8s");
    for (const json& point : told["by_grade"]) {
        EXPECT_LT(double(point["bleach_s_high"]), 20 * double(point["bleach_s"])) << point;
        EXPECT_GT(double(point["bleach_s_low"]), double(point["bleach_s"]) / 20) << point;
    }
}

TEST_F(UnusualPacks, AFilterBeyondThoseThatWereReadIsNoBetterKnownThanTheyAre) {
    prints.program.write("pack.toml", kPack);
    const Pack truth = parse_pack(kPack, "pack.toml");
    const auto rows = own::read(truth, own::patches_of(own::usual_strips(), truth.contrast), 0.01, 3);
    append_readings(prints.program / "strips.csv", std::array{OriginalRows{"strips", rows}});
    said("pack fit strips.csv --pack pack.toml -o read.toml");
    const auto range = [&](const std::string& grade) {
        const json shown = json::parse(said("pack show read.toml --json --at grade=" + grade).out);
        return shown["recipes"].front();
    };
    const auto band = [](const json& shown) {
        return double(shown["iso_range_high"]) - double(shown["iso_range_low"]);
    };
    const json softest = range("0"), softer = range("00");
    ASSERT_GT(double(softer["iso_range"]), double(softest["iso_range"]) + 5);
    EXPECT_GT(band(softer), band(softest) / 2);
}

// Percent of clearing are none where a bath of the pack was read to leave no fog; others are left.
TEST_F(UnusualPacks, ABathWithoutFogLeavesPercentOfClearingToTheOthers) {
    std::string rows = "strip,exposure_s,filter,restrainer_ml_l,develop_s,density\nfixed,0,2,0,0,0.08\n";
    for (const auto& [restrainer, blank] : {std::pair{"0", "0.14"}, {"30", "0.08"}})
        for (const auto& [seconds, density] :
             {std::pair{"0", blank}, {"4", "0.45"}, {"8", "0.95"}, {"16", "1.5"}})
            rows +=
                std::string("r") + restrainer + "," + seconds + ",2," + restrainer + ",90," + density + "\n";
    prints.program.write("clean.csv", rows);
    said("pack new --white 0.08 --blank 0.14 -o box.toml");
    said("pack fit clean.csv --pack box.toml -o clean.toml");
    EXPECT_GT(double(start("clean.toml", "--bleach 100%")["best"]["bleach_s"]), 0);
}

TEST_F(UnusualPacks, ADevelopmentBeforeTheImageIsAnsweredWithAWarning) {
    prints.program.write("slow.toml", kPack + "[develop]\nappears_s = 30\n");
    EXPECT_THAT(said("start neg.tif --whole --clear 1 --pack slow.toml --develop 20").err,
                HasSubstr("ends before there is an image"));
}

TEST_F(UnusualPacks, ABathWithoutBromideIsAskedForSomeInFiniteWords) {
    prints.program.write("bare.toml", kPack + "[bath]\nbromide_g_l = 0\n");
    EXPECT_THAT(said("plan neg.tif --whole --clear 1 --pack bare.toml --bleach 40s").out,
                testing::AllOf(HasSubstr("Add bromide"), Not(HasSubstr("inf"))));
}

TEST_F(UnusualPacks, ARescueIsOfABleachThatARecipeMayHave) {
    const auto answer = prints.program.run(
        "start neg.tif --whole --clear 1 --pack pack.toml --rescue 9000s --ladder ladder.png");
    EXPECT_EQ(answer.code, 64);
    EXPECT_EQ(answer.out, "");
    EXPECT_THAT(answer.err, HasSubstr("--rescue: 9000; expected: 0 to 7200"));
}

// A doubt is about the paper in hand.
TEST_F(UnusualPacks, ReadingsAreDoubtedByTheDevelopmentOfTheirOwnPack) {
    prints.program.write("long.toml", kPack + "[develop]\ntime_s = { value = 300, from = \"given\" }\n");
    prints.program.write("long.csv",
                         "strip,exposure_s,filter,develop_s,density\na,0,2,400,0.36\na,8,2,400,0.9\n");
    EXPECT_THAT(said("pack fit long.csv --pack long.toml -o learnt.toml").err, Not(HasSubstr("times the")));
    prints.program.write("longer.csv",
                         "strip,exposure_s,filter,develop_s,density\na,0,2,1300,0.36\na,8,2,1300,0.9\n");
    EXPECT_THAT(said("pack fit longer.csv --pack long.toml -o other.toml").err,
                HasSubstr("1300 s is 4.3 times the pack's own, 300 s"));
}

// An empty cell is an unexposed patch, as the help says.
TEST_F(UnusualPacks, ABlankWithoutSecondsTeachesWhatOneOfNoSecondsDoes) {
    const auto answer_with = [&](const std::string& none) {
        prints.program.write("rows.csv",
                             "strip,exposure_s,filter,restrainer_ml_l,develop_s,density\n"
                             "blank," +
                                 none + ",2,30,90,0.12\nfixed," + none +
                                 ",2,0,0,0.08\n"
                                 "s,4,2,0,90,0.5\ns,8,2,0,90,1.0\ns,16,2,0,90,1.5\n");
        std::filesystem::remove(prints.program / "of.toml");
        said("pack fit rows.csv --pack pack.toml -o of.toml");
        return start("of.toml", "--restrainer 30 --develop 90 --grade 2 --no-bleach")["best"];
    };
    EXPECT_EQ(answer_with(""), answer_with("0"));
}

}  // namespace
}  // namespace fogproof::tests
