// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words on screens that a printer reads at once, and that never sound like a loss where something was won.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;

class PlainWords : public testing::Test {
  protected:
    void SetUp() override {
        ASSERT_EQ(program_.run("demo . --megapixels 0.3").code, 0);
        ASSERT_EQ(program_.run("pack new --white 0.09 --blank 0.42 -o slips.toml").code, 0);
    }
    std::string said(const std::string& words) const {
        const auto answer = program_.run("--quiet " + words);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.out;
    }
    Program program_;
};

TEST_F(PlainWords, MoreReadingsNeverTakeAwayWhatWasMeasured) {
    EXPECT_THAT(said("pack check slips.toml"),
                HasSubstr("slips.toml is valid: \"unnamed pack\", 2 numbers measured, "));
    // Three slips tell little: what they narrow is partly measured, what two slips settled before stays
    // measured.
    program_.write("more.csv", "strip,exposure_s,develop_s,density\nw,0,0,0.09\nb,0,90,0.42\nb,0,90,0.43\n");
    const auto fit = nlohmann::json::parse(said("pack fit more.csv --pack slips.toml -o fitted.toml --json"));
    for (const auto& number : fit["numbers"])
        if (number["name"] == "paper.white" || number["name"] == "fog.blank") {
            EXPECT_EQ(number["state"], "measured") << number;
        }
    EXPECT_THAT(said("pack check fitted.toml"), Not(ContainsRegex(" [01] numbers measured")));
}

TEST_F(PlainWords, AFitSaysWhatItsErrorsAre) {
    const std::string fit = said("pack fit readings.csv --pack slips.toml -o fitted.toml");
    EXPECT_THAT(fit, ContainsRegex(
                         "Readings err by 0\\.[0-9]+ D, (no misfit beyond the reading error|the laws miss)"));
    EXPECT_THAT(fit, HasSubstr("partly measured"));
    EXPECT_THAT(fit, Not(HasSubstr("nudged")));
    const std::string shown = said("pack show fitted.toml");
    EXPECT_THAT(shown, ContainsRegex("[0-9]+ numbers measured, [0-9]+ partly measured"));
    EXPECT_THAT(shown, Not(HasSubstr("nudged")));
}

TEST_F(PlainWords, AStartSaysWhatTheBleachDoesAndByHowMuchItMisses) {
    const std::string start = said("start negative.tif --pack pack.toml");
    EXPECT_THAT(start, ContainsRegex(
                           "from 20 % before to 25 % after the right time it becomes [0-9.]+ L\\* lighter"));
    EXPECT_THAT(
        start,
        ContainsRegex("the first sheet is expected [0-9.]+ L\\* \\([0-9.]+ to [0-9.]+\\) rms off the goal; "
                      "after the test strip [0-9.]+ L\\*"));
}

}  // namespace
}  // namespace fogproof::tests
