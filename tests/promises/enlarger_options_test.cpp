// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of the enlarger, asked of the program: prints that the optics say must be alike are alike.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "support/folded.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

std::string seconds(double time) {
    return "--exposure " + std::to_string(time) + "s ";
}

// The negative whose every patch passes this light instead.
template <class Law>
std::vector<double> codes_of(const PatchPrints& prints, const std::string& options, Law law) {
    std::vector<double> changed;
    for (const double light : PatchPrints::kLight) changed.push_back(law(light));
    save_patches(prints.program, "changed.tif", changed);
    return prints.codes(options, "changed.tif");
}

TEST(EnlargerOptions, TimeGoesWithTheSquareOfMagnificationPlusOne) {
    // Clerc, Photography: Theory and Practice, Practical Enlarging: 2 to 4 diameters is 9 to 25.
    const PatchPrints prints;
    expect_same_print(prints.codes(seconds(9) + "--magnification 2"),
                      prints.codes(seconds(25) + "--magnification 4"));
    expect_another_print(prints.codes(seconds(9) + "--magnification 2"),
                         prints.codes(seconds(9) + "--magnification 4"));
}

TEST(EnlargerOptions, TimeGoesWithTheSquareOfTheFNumber) {
    const PatchPrints prints;
    expect_same_print(prints.codes(seconds(5) + "--f-number 5.6"),
                      prints.codes(seconds(20) + "--f-number 11.2"));
}

// Seconds on a worksheet mean nothing without the height of the head and the stop of the lens.
TEST(EnlargerOptions, AreToldWithTheSeconds) {
    const PatchPrints prints;
    const std::string asked = " neg.tif --pack pack.toml --whole --clear 1 --magnification 9.5 --f-number 11";
    for (const char* verb : {"start", "plan"})
        EXPECT_THAT(folded(prints.program.run(verb + asked).out),
                    testing::HasSubstr("All seconds here are for magnification 9.5 and f/11; the pack's own"))
            << verb;
    ASSERT_EQ(prints.program.run("plan" + asked + " -o sheets").code, 0);
    EXPECT_THAT(folded(content_of(prints.program / "sheets/session.txt")),
                testing::HasSubstr("All seconds here are for magnification 9.5 and f/11"));
}

// The time that was measured keeps its light: near it another exponent moves next to nothing.
TEST(EnlargerOptions, ReciprocityLeavesTimesThatWereMeasured) {
    const Program program;
    ASSERT_EQ(program.run("demo box --megapixels 0.3").code, 0);
    ASSERT_EQ(program.run("pack fit box/readings.csv --pack box/pack.toml -o fitted.toml").code, 0);
    const auto seconds = [&](const std::string& option) {
        const auto said = program.run(
            "start box/negative.tif --pack fitted.toml --grade 2 --restrainer 20 "
            "--develop 90 --no-bleach --json " +
            option);
        EXPECT_EQ(said.code, 0) << said.err;
        return double(nlohmann::json::parse(said.out)["best"]["exposure_s"]);
    };
    // The demo's strips were exposed for 28 s. t' = m (t/m)^(p/p') for the mean time m of the readings.
    const double plain = seconds("--reciprocity 1"), failing = seconds("--reciprocity 0.9");
    constexpr double kMeanTime_s = 28, kRounded = 0.04;
    EXPECT_NEAR(failing, kMeanTime_s * std::pow(plain / kMeanTime_s, 1 / 0.9), kRounded * plain);
}

TEST(EnlargerOptions, AStopOfTodaysLightIsAStopOfTime) {
    // A stop is a factor of two, and exposure is light times time (Bunsen and Roscoe 1862, from memory).
    const PatchPrints prints;
    expect_same_print(prints.codes(seconds(5) + "--light +1"), prints.codes(seconds(10)));
    expect_same_print(prints.codes(seconds(12) + "--light -1/2"),
                      prints.codes(seconds(12 / std::sqrt(2.0)) + "--light 0"));
    // A flash is light of the same lamp.
    expect_same_print(prints.codes(seconds(5) + "--flash 1s@2 --light 1"),
                      prints.codes(seconds(10) + "--flash 2s@2"));
}

TEST(EnlargerOptions, TodaysLightIsRefusedWhereItCannotBeMeant) {
    const PatchPrints prints;
    for (const char* wrong : {"12s", "+4", "bright", "1/0"})
        EXPECT_THAT(
            prints.program.run("print neg.tif --pack pack.toml -o out.tif --light " + std::string(wrong)).err,
            testing::HasSubstr("--light: \"" + std::string(wrong) +
                               "\"; expected: stops from -3 to +3, as +1/3 where today's light is brighter"));
    ASSERT_EQ(prints.program.run("pack new --white 0.09 --blank 0.42 -o bare.toml").code, 0);
    EXPECT_THAT(prints.program.run("print neg.tif --pack bare.toml -o out.tif --light +1").err,
                testing::HasSubstr("--light: the pack has no anchor"));
}

TEST(EnlargerOptions, CallierMultipliesEveryDensity) {
    // Q is specular over diffuse density (ISO 5-2); without flare, so that only Q is asked about.
    const PatchPrints prints;
    expect_same_print(prints.codes(seconds(12) + "--flare 0 --callier 1.3"),
                      codes_of(prints, seconds(12) + "--flare 0 --callier 1",
                               [](double light) { return std::pow(light, 1.3); }));
}

TEST(EnlargerOptions, FlareSpreadsItsShareOfTheMeanLight) {
    const PatchPrints prints;
    double mean = 0;
    for (const double light : PatchPrints::kLight) mean += light / double(PatchPrints::kLight.size());
    expect_same_print(prints.codes(seconds(12) + "--flare 0.05"),
                      codes_of(prints, seconds(12) + "--flare 0",
                               [=](double light) { return 0.95 * light + 0.05 * mean; }));
}

TEST(EnlargerOptions, ReciprocityRaisesTheTimeToItsExponent) {
    // E = I t^p (Schwarzschild). The pack's seconds are those of its speed point, which gives 0.60 above
    // white: the time m. There the exponent changes nothing; t with p = 1 does what m (t/m)^(1/p) does with
    // p.
    const PatchPrints prints;
    prints.program.write("pack.toml",
                         content_of(prints.program / "pack.toml") + "[speed]\nlog_seconds = 0.6\n");
    const double m = std::pow(10, 0.6);
    expect_same_print(prints.codes(seconds(12) + "--reciprocity 1"),
                      prints.codes(seconds(m * std::pow(12 / m, 1 / 0.86)) + "--reciprocity 0.86"));
    expect_same_print(prints.codes(seconds(m) + "--reciprocity 1"),
                      prints.codes(seconds(m) + "--reciprocity 0.86"));
}

TEST(EnlargerOptions, BlackTimeGivesSecondsThatReachBlackThroughClearFilm) {
    const PatchPrints prints;
    prints.program.write("unanchored.toml",
                         "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.08\n");
    const auto lightness_of_clear = [&](const std::string& options) {
        const auto answer = prints.program.run(
            "print neg.tif --pack unanchored.toml -o out.tif --force --whole --clear 1 "
            "--flare 0 --grade 2 --bits 16 --profile grey " +
            options);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return patches_of(prints.program, "out.tif", int(PatchPrints::kLight.size())).front();
    };
    // The shortest time for black is where twice as long makes clear film hardly darker, half as long plainly
    // lighter.
    const double at = lightness_of_clear("--black-time 8s@2 --exposure 8s"),
                 twice = lightness_of_clear("--black-time 8s@2 --exposure 16s"),
                 half = lightness_of_clear("--black-time 8s@2 --exposure 4s");
    EXPECT_LT(at - twice, 0.015 * 65535);
    EXPECT_GT(half - at, 0.03 * 65535);
    // Another black time, other seconds for the same print.
    EXPECT_NEAR(lightness_of_clear("--black-time 4s@2 --exposure 4s"), at, kSamePrint);
}

// Graded paper needs no filter, so nobody tells the grade of its black time.
TEST(EnlargerOptions, ABlackTimeWithoutAGradeIsThatOfTheOnlyGrade) {
    const PatchPrints prints;
    for (const std::string paper : {"--graded 3", "--graded 0", "--iso-range 80"}) {
        ASSERT_EQ(
            prints.program.run("pack new --white 0.08 --blank 0.3 --force -o graded.toml " + paper).code, 0);
        const std::string own = paper.ends_with(" 0") ? "@0" : "@3",
                          scan = " neg.tif --pack graded.toml --whole --clear 1 ";
        for (const std::string verb : {"start --json", "plan --json", "print -o out.png --force --json"}) {
            const auto untold = prints.program.run(verb + scan + "--black-time 8s"),
                       told = prints.program.run(verb + scan + "--black-time 8s" + own);
            EXPECT_EQ(untold.code, 0) << paper << verb << untold.err;
            EXPECT_EQ(untold.out, told.out) << paper << verb;
        }
        EXPECT_EQ(prints.program.run("grid -o g.png --force --cell 80" + scan + "--black-time 8s").code, 0);
    }
}

}  // namespace
}  // namespace fogproof::tests
