// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What `start` and `plan` make of a print whose bleach the printer has decided, or has let go too far.
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
using testing::Not;

const std::string kAllOfIt = " --whole --clear 1 ";

TEST(StartDecisions, ADecidedBleachOfNoneIsToldAsDecided) {
    const PatchPrints prints;
    const std::string scan = " neg.tif --pack pack.toml --force" + kAllOfIt;
    for (const char* decided : {"--no-bleach", "--bleach 0", "--bleach 0%"}) {
        EXPECT_THAT(prints.program.run("start" + scan + decided).out,
                    AllOf(HasSubstr("bleach       none: as you decided\n"), Not(HasSubstr("gain less"))))
            << decided;
        ASSERT_EQ(prints.program.run("plan -o sheets" + scan + decided).code, 0);
        EXPECT_THAT(content_of(prints.program / "sheets/neg.txt"),
                    AllOf(HasSubstr("No bleach: as you decided."), Not(HasSubstr("and bleach")),
                          Not(HasSubstr("gain less")), Not(HasSubstr("--seen"))));
        EXPECT_THAT(content_of(prints.program / "sheets/session.txt"),
                    HasSubstr("No bleach, as you decided."));
    }
    ASSERT_EQ(prints.program.run("plan -o sheets" + scan).code, 0);
    // Bands for --seen are compared with a picture that shows no bleach.
    EXPECT_THAT(content_of(prints.program / "sheets/neg.txt"),
                AllOf(HasSubstr("develop and bleach it like the print"),
                      HasSubstr("choose the band before you bleach")));
}

// The print that was left in the bleach is the one that start tells of, seconds and all.
TEST(StartDecisions, ARescueIsOfTheToldPrint) {
    const PatchPrints prints;
    const auto numbers = [&](const std::string& words) {
        const auto answer = prints.program.run(words + " neg.tif --json --force" + kAllOfIt);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return json::parse(answer.out);
    };
    const json told = numbers("start --pack pack.toml --rescue 140s --recipe-out told.toml");
    json steps = told["steps"];
    steps.push_back(told["best"]);
    for (const json& step : steps) {
        const json print =
            numbers("print --pack pack.toml -o out.png --recipe told.toml --bleach 140s --redevelop " +
                    std::to_string(double(step["redevelop_s"])))["prints"][0];
        for (const char* number : {"density_lightest", "density_darkest", "lightness_error"})
            EXPECT_NEAR(double(step[number]), double(print[number]), 0.01) << number << " of " << step;
        EXPECT_LE(double(told["best"]["lightness_error"]), double(step["lightness_error"]) + 0.05);
    }
    // So it is without an anchor, where only stops are told.
    prints.program.write("stops.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    const std::string decided = " --rescue 140s --grade 2 --restrainer 0 --develop 90 --bleach 100%";
    EXPECT_NEAR(double(numbers("start --pack stops.toml" + decided)["steps"][0]["density_darkest"]),
                double(numbers("start --pack pack.toml" + decided)["steps"][0]["density_darkest"]), 0.001);
}

}  // namespace
}  // namespace fogproof::tests
