// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Grades as filter sets number them: 00, 0, 1/2, 1 ... 5 (common practice, no source). 00 is a filter of its
// own, softer than 0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

Json cells(const PatchPrints& prints, const std::string& across, const std::string& more = {}) {
    const auto said =
        prints.program.run("grid neg.tif --pack pack.toml --whole --clear 1 -o g.png --force --cell 80 " +
                           ("--across '" + across) + "' --down bleach=0s --html " + more);
    EXPECT_EQ(said.code, 0) << said.err;
    return Json::parse(content_of(prints.program / "g.png.json")).at("cells");
}

TEST(Grades, DoubleNoughtIsAFilterSofterThanNought) {
    const PatchPrints prints;
    const Json row = cells(prints, "grade=00,0,0.5");
    EXPECT_EQ(row[0]["exposures"][0]["grade"], -1);
    // A grade is some 25 of ISO R there (170 to 140 for grade 0, ANSI PH2.2-1966).
    EXPECT_GT(double(row[0]["iso_range"]), double(row[1]["iso_range"]) + 10);
    EXPECT_GT(double(row[1]["iso_range"]), double(row[2]["iso_range"]));
    const std::string page = content_of(prints.program / "g.png.html");
    EXPECT_THAT(page, HasSubstr("grade 00"));
    EXPECT_THAT(page, Not(HasSubstr("grade -1")));
    const std::string kTime = "--exposure 10s ";
    expect_another_print(prints.codes(kTime + "--grade 00"), prints.codes(kTime + "--grade 0"));
    expect_another_print(prints.codes("--split 4s@00 7s@5"), prints.codes("--split 4s@0 7s@5"));
    expect_same_print(prints.codes(kTime + "--grade 00"), prints.codes("--split 4s@00 6s@00"));
}

TEST(Grades, RecipesAndPacksKeepDoubleNought) {
    const PatchPrints prints;
    prints.program.write("soft.toml", "fogproof_recipe = 1\n[[exposure]]\ngrade = \"00\"\ntime_s = 10\n");
    expect_same_print(prints.codes("--recipe soft.toml"), prints.codes("--exposure 10s --grade 00"));
    prints.program.write("bare.toml", "fogproof_recipe = 1\n[[exposure]]\ngrade = 00\ntime_s = 10\n");
    EXPECT_EQ(prints.program.run("print neg.tif --pack pack.toml --recipe bare.toml -o no.tif").code, 65)
        << "TOML knows no number 00, so it must not pass for 0";
    prints.program.write("set.toml",
                         "fogproof_pack = 1\n[[filter]]\ngrade = \"00\"\nbalance = 0.6\n[[filter]]\ngrade = "
                         "\"2 1/2\"\nbalance = -0.3\n");
    const auto shown = prints.program.run("pack show set.toml");
    EXPECT_THAT(shown.out, HasSubstr("grade 00"));
    EXPECT_THAT(shown.out, HasSubstr("grade 2.5"));
    EXPECT_THAT(prints.program.run("start neg.tif --pack set.toml --whole --clear 1 --no-bleach").out,
                HasSubstr("\n  00     "));
}

TEST(Grades, ReadingsThroughDoubleNoughtAreNotThoseThroughNought) {
    const PatchPrints prints;
    const auto rows = [](const char* filter) {
        std::string text = "strip,wedge_density,exposure_s,filter,density\n";
        for (int step = 0; step < 15; ++step)
            text += "w," + std::to_string(0.05 + 0.15 * step) + ",30," + filter + "," +
                    std::to_string(0.1 + 1.9 / (1 + std::pow(10.0, 0.9 * (0.15 * step - 1.0)))) + "\n";
        return text;
    };
    prints.program.write("soft.csv", rows("00"));
    ASSERT_EQ(prints.program.run("pack fit soft.csv -o soft.toml").code, 0);
    EXPECT_THAT(content_of(prints.program / "soft.toml"), HasSubstr("grade = { value = \"00\""));
    prints.program.write("nought.csv", rows("0"));
    ASSERT_EQ(prints.program.run("pack fit nought.csv -o nought.toml").code, 0);
    EXPECT_THAT(content_of(prints.program / "nought.toml"), Not(HasSubstr("\"00\"")));
}

// A fit gives filters 0 to 5 numbers of their own, and the set on the shelf still has its 00.
TEST(Grades, AFittedPackTakesDoubleNoughtAsBefore) {
    const PatchPrints prints;
    std::string rows = "strip,wedge_density,exposure_s,filter,density\n";
    for (int step = 0; step < 15; ++step)
        rows += "w," + std::to_string(0.05 + 0.15 * step) + ",30,2," +
                std::to_string(0.1 + 1.9 / (1 + std::pow(10.0, 1.6 * (0.15 * step - 1.0)))) + "\n";
    prints.program.write("two.csv", rows);
    ASSERT_EQ(prints.program.run("pack fit two.csv --pack pack.toml --force -o pack.toml").code, 0);
    const Json row = cells(prints, "grade=00,0,1");
    const double step = double(row[1]["iso_range"]) - double(row[2]["iso_range"]);
    EXPECT_GT(double(row[0]["iso_range"]), double(row[1]["iso_range"]) + step / 3);
    // A set that its owner described has what it has.
    prints.program.write("pack.toml",
                         "fogproof_pack = 1\n[[filter]]\ngrade = 0\nbalance = 0.4\n[[filter]]\ngrade = 3\n"
                         "balance = -0.6\n");
    ASSERT_EQ(prints.program.run("pack fit two.csv --pack pack.toml --force -o pack.toml").code, 0);
    EXPECT_THAT(
        prints.program.run("print neg.tif --pack pack.toml --whole --clear 1 --grade 00 -o no.png").err,
        HasSubstr("there is no grade 00"));
}

TEST(Grades, HalfStepsMayBeWrittenAsOnTheFilter) {
    const PatchPrints prints;
    const std::string kTime = "--exposure 10s --grade ";
    const auto half = prints.codes(kTime + "2.5");
    for (const char* written : {"'2 1/2'", "2½", "'2 ½'"})
        expect_same_print(half, prints.codes(kTime + written));
    expect_same_print(prints.codes(kTime + "0.5"), prints.codes(kTime + "1/2"));
    EXPECT_EQ(cells(prints, "grade=1 1/2,2½")[1]["exposures"][0]["grade"], 2.5);
}

}  // namespace
}  // namespace fogproof::tests
