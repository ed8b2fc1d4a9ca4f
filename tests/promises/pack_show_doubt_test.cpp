// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What pack show says of whites, ranges, black and speed comes with its doubt, and its seconds are seconds.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::json;

Json shown(const Program& program, const std::string& words) {
    const auto said = program.run("pack show " + words + " --json");
    EXPECT_EQ(said.code, 0) << said.err;
    return Json::parse(said.out);
}

TEST(PackShowDoubt, ACurveThatNobodySeesIsSaidToChangeNothing) {
    const Program program;
    ASSERT_EQ(program.run("pack new --white 0.09 --blank 0.42 --surface semi-matt -o attic.toml").code, 0);
    const std::string at = "pack show attic.toml --at restrainer=20";
    EXPECT_THAT(program.run(at).err, HasSubstr("--at changes nothing here"));
    EXPECT_THAT(program.run(at + " --json").err, ::testing::Not(HasSubstr("changes nothing")));
}

TEST(PackShowDoubt, RestrainerRowsCarryTheIntervalOfTheirCurve) {
    const Program program;
    ASSERT_EQ(program.run("pack new --white 0.09 --blank 0.42 --surface semi-matt -o attic.toml").code, 0);
    const Json all = shown(program, "attic.toml --at restrainer=5 --at restrainer=20 --at restrainer=80");
    const auto row_of = [&](double ml_l) {
        for (const Json& row : all.at("whites").at("restrained"))
            if (row.at("restrainer_ml_l") == ml_l) return row;
        return Json();
    };
    // The curve's own fog lies above the white of the sheet, known to 0.01 from one reading of the slip.
    constexpr double kOfWhite = 0.012;
    const double white = all.at("paper_white");
    for (std::size_t i = 0; const double ml_l : {5.0, 20.0, 80.0}) {
        const Json row = row_of(ml_l), curve = all.at("recipes").at(i++);
        EXPECT_NEAR(row.at("density"), double(curve.at("fog")) + white, 1e-6);
        EXPECT_NEAR(row.at("density_high"), double(curve.at("fog_high")) + white, kOfWhite) << ml_l;
        EXPECT_NEAR(row.at("density_low"), std::max(white, double(curve.at("fog_low")) + white), kOfWhite)
            << ml_l;
        EXPECT_GT(double(row.at("density_high")) - double(row.at("density_low")), 0.03) << ml_l;
        EXPECT_LT(row.at("stops_lost_low"), row.at("stops_lost_high"));
    }
    const std::string text = program.run("pack show attic.toml").out;
    for (const Json& rows : {all.at("whites").at("restrained"), all.at("whites").at("bleached")})
        for (const Json& row : rows) {
            char interval[40];
            std::snprintf(interval, sizeof interval, " %.2f to %.2f ", double(row.at("density_low")),
                          double(row.at("density_high")));
            EXPECT_THAT(text, HasSubstr(interval));
        }
}

TEST(PackShowDoubt, RangesBlackAndSpeedCarryTheirs) {
    const Program program;
    program.write(
        "box.toml",
        "fogproof_pack = 1\n[paper]\nwhite = 0.08\nblack = { value = 1.9, sd = 0.05, from = \"measured\" "
        "}\n[fog]\nblank = 0.35\n[speed]\nlog_seconds = { value = 0.6, sd = 0.1, from = \"measured\" "
        "}\n[anchor]\nknown = true\n");
    const Json all = shown(program, "box.toml --at grade=2 --at grade=4 --at grade=4,bleach=100%");
    // 1.96 standard deviations either side hold 95 % of a normal distribution.
    EXPECT_NEAR(all.at("black_low"), 1.9 - 1.96 * 0.05, 1e-6);
    EXPECT_NEAR(all.at("black_high"), 1.9 + 1.96 * 0.05, 1e-6);
    EXPECT_NEAR(std::log10(double(all.at("speed_s_low"))), 0.6 - 0.196, 0.02);
    EXPECT_NEAR(std::log10(double(all.at("speed_s_high"))), 0.6 + 0.196, 0.02);
    // The curve of a recipe is drawn point by point; the table of grades finds its ends another way.
    const auto is_that_of = [&](const Json& grade, const std::string& range, std::size_t recipe) {
        const Json& curve = all.at("recipes")[recipe];
        for (const char* end : {"", "_low", "_high"})
            EXPECT_NEAR(grade.at(range + end), curve.at(std::string("iso_range") + end), 0.01)
                << range << end;
    };
    for (const Json& grade : all.at("grades")) {
        if (grade.at("grade") == 2) is_that_of(grade, "iso_range", 0);
        if (grade.at("grade") == 4) is_that_of(grade, "iso_range", 1);
        if (grade.at("grade") == 4) is_that_of(grade, "iso_range_cleared", 2);
        EXPECT_LT(grade.at("iso_range_low"), grade.at("iso_range"));
    }
}

TEST(PackShowDoubt, SpeedIsInSecondsWhateverTheReciprocity) {
    // E = I t^p (Schwarzschild): log exposure 1 is t with p log t = 1.
    const Program program;
    program.write("box.toml",
                  "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.08\n[speed]\nlog_seconds = 1\n"
                  "[enlarger]\nreciprocity = 0.86\n[anchor]\nknown = true\n");
    const Json all = shown(program, "box.toml --at grade=2");
    const double seconds = all.at("speed_s");
    EXPECT_NEAR(seconds, std::pow(10.0, 1 / 0.86), 1e-4);
    // And the curve of the same page has 0.60 above white there.
    const Json density = all.at("recipes")[0].at("density");
    const double place = (std::log10(seconds) + 3) / 0.05;
    const auto below = std::size_t(place);
    EXPECT_NEAR(std::lerp(double(density[below]), double(density[below + 1]), place - double(below)), 0.68,
                0.005);
}

}  // namespace
}  // namespace fogproof::tests
