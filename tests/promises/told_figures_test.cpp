// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What `start` tells is of the print that it tells: whatever bleach, restrainer or black time somebody
// states. Nobody's measurement: the answers are held against each other. Common practice, no source.
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
using testing::AllOf;
using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

// A line of a pack.
std::string measured(const std::string& number, const std::string& value, const std::string& deviation) {
    return number + " = { value = " + value + ", sd = " + deviation + ", from = \"measured\" }\n";
}

const std::string kWholeClear = " --whole --clear 1 ";
// A pack whose seconds somebody measured, to a quarter of a stop.
const std::string kMeasuredPack = "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[speed]\n" +
                                  measured("log_seconds", "0.9", "0.04") +
                                  "[anchor]\nknown = true\ncarrier = \"clear film\"\n";

class ToldFigures : public ::testing::Test {
  protected:
    void SetUp() override { prints_.program.write("measured.toml", kMeasuredPack); }
    [[nodiscard]] Program::Answer start(const std::string& options, const std::string& pack = "pack.toml") {
        auto answer = prints_.program.run("start neg.tif --pack " + pack + kWholeClear + options);
        EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
        return answer;
    }
    [[nodiscard]] json best(const std::string& options, const std::string& pack = "pack.toml") {
        return json::parse(start("--json " + options, pack).out)["best"];
    }

    const PatchPrints prints_;
};

// The more of the picture a bleach takes, the farther is the print from what was wanted.
TEST_F(ToldFigures, ADeepBleachIsToldAsFarOffAsItsPrintIs) {
    double before = 0;
    for (const char* percent : {"150%", "300%", "1000%"}) {
        const json told =
            best("--grade 2 --restrainer 0 --develop 90 --bleach " + std::string(percent), "measured.toml");
        const double as_described = told["lightness_error_as_described"], expected = told["lightness_error"],
                     after_strip = told["lightness_error_after_strip"];
        EXPECT_GT(expected, before + 1) << percent;
        EXPECT_GT(expected, 0.8 * as_described) << percent;
        EXPECT_GT(after_strip, 0.5 * as_described) << percent << ": no band makes up for so deep a bleach";
        before = expected;
    }
}

TEST_F(ToldFigures, MeasuredSecondsStayAndABlackTimeIsHeldAgainstThem) {
    const json own = best("--no-bleach", "measured.toml");
    const auto slip = start("--no-bleach --json --black-time 80s", "measured.toml");
    EXPECT_EQ(json::parse(slip.out)["best"]["exposure_s"], own["exposure_s"]);
    EXPECT_THAT(slip.err, AllOf(HasSubstr("warning: --black-time 80s is "), HasSubstr("stop more than"),
                                HasSubstr("these are kept"), HasSubstr("Is it a mistake?")));
    EXPECT_THAT(std::string(json::parse(slip.out)["warnings"].dump()), HasSubstr("--black-time 80s"));
    // The black time by the pack's own seconds is what the warning tells.
    std::smatch told;
    ASSERT_TRUE(std::regex_search(slip.err, told, std::regex("full black in ([0-9.]+) s"))) << slip.err;
    const auto right = start("--no-bleach --json --black-time " + told[1].str() + "s", "measured.toml");
    EXPECT_EQ(json::parse(right.out)["best"]["exposure_s"], own["exposure_s"]);
    EXPECT_THAT(right.err, AllOf(Not(HasSubstr("warning: --black-time")),
                                 HasSubstr("agrees with the pack's own seconds")));
    for (const char* line : {"print neg.tif -o out.png --grade 2",
                             "grid neg.tif -o grid.png --across grade=1,2", "plan neg.tif"}) {
        const auto answer = prints_.program.run(std::string(line) + kWholeClear +
                                                "--pack measured.toml --black-time 80s --force");
        EXPECT_EQ(answer.code, 0) << answer.err;
        EXPECT_THAT(answer.err, HasSubstr("warning: --black-time 80s is ")) << line;
    }
}

TEST_F(ToldFigures, AmountsThatNobodyTakesAreRefusedOrDoubted) {
    const auto refused = prints_.program.run("start neg.tif --pack pack.toml --restrainer 501" + kWholeClear);
    EXPECT_EQ(refused.code, 64);
    EXPECT_THAT(refused.err, HasSubstr("--restrainer: 501; expected: 0 to 500"));
    const auto much = start("--restrainer 150 --develop 900 --no-bleach", "measured.toml");
    EXPECT_THAT(much.err, AllOf(HasSubstr("warning: restrainer 150 ml/L is far above the usual 30"),
                                HasSubstr("warning: development of 900 s is 10 times the usual, 90 s")));
    EXPECT_FALSE(std::regex_search(much.out, std::regex("[0-9]{7} s"))) << much.out;
    EXPECT_THAT(start("--restrainer 30 --develop 120 --no-bleach", "measured.toml").err,
                Not(AnyOf(HasSubstr("warning: restrainer"), HasSubstr("warning: development"))));
}

TEST_F(ToldFigures, APictureThatIsMatchedIsNotSpokenOfAsFreshPaper) {
    save_patches(prints_.program, "other.tif", {0.05, 0.1, 0.3, 0.5, 0.6, 0.7, 0.9});
    const std::string matched = start("--match other.tif --no-bleach").out;
    EXPECT_THAT(matched, AllOf(HasSubstr("darker than wanted"), Not(HasSubstr("fresh paper"))));
    EXPECT_THAT(start("--no-bleach").out, HasSubstr("the fresh-paper goal itself is uncertain"));
}

TEST_F(ToldFigures, AStripThatWouldNotPayIsSaidNotToPay) {
    prints_.program.write("sure.toml",
                          "fogproof_pack = 1\n"
                          "[paper]\n" +
                              measured("white", "0.08", "0.001") + measured("black", "2", "0.001") +
                              "[fog]\n" + measured("blank", "0.35", "0.001") + "[speed]\n" +
                              measured("log_seconds", "0.9", "0.01") + "[grains]\n" +
                              measured("spread", "0.16", "0.001") + "[enlarger]\n" +
                              measured("callier", "1", "0.001") + "[anchor]\nknown = true\n");
    const std::string options = "--grade 2 --restrainer 0 --develop 90 --no-bleach ";
    const std::string words = start(options, "sure.toml").out;
    EXPECT_THAT(
        words, AllOf(HasSubstr("a test strip would hardly bring it closer"),
                     HasSubstr("test strip   it would gain little"), Not(HasSubstr("after the test strip"))));
    EXPECT_THAT(start("--black-time 8s --no-bleach").out, HasSubstr("; after the test strip "));
}

TEST_F(ToldFigures, ShortTimesAreToldToADecimal) {
    const json told = best("--black-time 1.1s --grade 2 --no-bleach");
    const std::string words = start("--black-time 1.1s --grade 2 --no-bleach").out;
    std::smatch seconds;
    ASSERT_TRUE(std::regex_search(words, seconds, std::regex("expose +([0-9.]+) s"))) << words;
    EXPECT_NEAR(std::log2(std::stod(seconds[1]) / double(told["exposure_s"])), 0, 1.0 / 24) << words;
}

TEST_F(ToldFigures, OptionsThatChangeNothingAreNamed) {
    const auto looks = start(
        "--view bath --bath-depth 9 --quality 50 --rendering relative --bits 16 --compress "
        "--verify --profile display-p3 --no-bleach");
    EXPECT_THAT(looks.err, HasSubstr("no picture is drawn without --ladder or --strip, so --profile, "
                                     "--rendering, --view, --bath-depth, --bits, --compress, --quality, "
                                     "--verify change nothing here"));
    EXPECT_THAT(start("--view bath --no-bleach --strip strip.png").err, Not(HasSubstr("no picture")));
}

TEST_F(ToldFigures, ColumnsStayApartAndGradesAreThoseOfFilters) {
    ASSERT_EQ(prints_.program.run("pack new --white 0.08 --blank 0.4 -o box.toml").code, 0);
    const std::string words = start("--restrainer 0", "box.toml").out;
    EXPECT_THAT(words, HasSubstr("full black"));
    EXPECT_FALSE(std::regex_search(words, std::regex("\\)[0-9]"))) << words;
    const std::string numbers = start("--json", "measured.toml").out;
    EXPECT_FALSE(std::regex_search(numbers, std::regex("\"grade\": [0-9]\\.[0-9]{4}"))) << numbers;
}

}  // namespace
}  // namespace fogproof::tests
