// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Exposures in stops, asked of the program: one stop more is the print exposed for twice the seconds. A stop
// is a factor of two by definition (ISO 6846 gives exposures in log H, one stop is 0.30).
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;

json cells(const PatchPrints& prints, const std::string& options, const std::string& pack = "pack.toml") {
    const auto answer = prints.program.run("grid neg.tif --pack " + pack +
                                           " --whole --clear 1 --force -o grid.png --cell 80 " + options);
    EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
    return json::parse(content_of(prints.program / "grid.png.json"))["cells"];
}

// Seconds of every exposure of the recipe's own start.
std::vector<double> start_of(const PatchPrints& prints, const std::string& recipe) {
    std::vector<double> seconds;
    const json all = cells(prints, recipe + " --across redevelop=0 --down develop=90");
    for (const auto& exposure : all[0]["exposures"]) seconds.push_back(exposure["exposure_s"]);
    return seconds;
}

std::string in_seconds(double seconds) {
    return std::to_string(seconds) + "s";
}

constexpr double kSameTime = 1e-6;  // of the time

const std::vector<std::string> kWays{"--grade 2 ", "--grade 3 --restrainer 20 ", "--grade 2 --bleach 100% ",
                                     "--grade 2 --flash 0.2s@0 ",
                                     "--grade 4 --restrainer 20 --bleach 60% --flash 0.1s@0 --dilution 30 "};

TEST(Stops, OneStopMoreIsThePrintOfTwiceTheSeconds) {
    const PatchPrints prints;
    for (const auto& way : kWays) {
        SCOPED_TRACE(way);
        const double start = start_of(prints, way).front();
        expect_same_print(prints.codes(way), prints.codes(way + "--exposure " + in_seconds(start)));
        expect_same_print(prints.codes(way + "--exposure +0"), prints.codes(way));
        const auto longer = prints.codes(way + "--exposure +1"),
                   shorter = prints.codes(way + "--exposure -1.5");
        expect_same_print(longer, prints.codes(way + "--exposure " + in_seconds(2 * start)));
        expect_same_print(shorter, prints.codes(way + "--exposure " + in_seconds(start / std::exp2(1.5))));
        expect_another_print(longer, shorter);
    }
}

TEST(Stops, AcrossAGridDoubleTheTime) {
    const PatchPrints prints;
    for (const auto& way : kWays) {
        SCOPED_TRACE(way);
        const json row = cells(prints, way + "--across exposure=-1,+0,+1,+2 --down develop=90");
        const double start = row[1]["exposures"][0]["exposure_s"];
        for (int i = 0; i < 4; ++i)
            EXPECT_NEAR(double(row[i]["exposures"][0]["exposure_s"]) / start, std::exp2(i - 1), kSameTime)
                << way;
    }
}

TEST(Stops, OfARecipeFileAreThoseOfTheOption) {
    const PatchPrints prints;
    prints.program.write(
        "recipe.toml",
        "fogproof_recipe = 1\n[[exposure]]\ngrade = 3\nstops = 1\n[develop]\nrestrainer_ml_l = 20\n");
    const std::string way = "--grade 3 --restrainer 20 ";
    const double start = start_of(prints, way).front();
    expect_same_print(prints.codes("--recipe recipe.toml"),
                      prints.codes(way + "--exposure " + in_seconds(2 * start)));
}

TEST(Stops, OfASplitCountFromTheStartOfItsOwnProportions) {
    const PatchPrints prints;
    const auto seconds = start_of(prints, "--split +0@0 -1@5 ");
    ASSERT_EQ(seconds.size(), 2u);
    EXPECT_NEAR(seconds[1] / seconds[0], 0.5, kSameTime);
    // The same proportions, written one stop longer in both: both times double.
    const auto longer = start_of(prints, "--split +1@0 +0@5 ");
    for (std::size_t i = 0; i < 2; ++i) EXPECT_NEAR(longer[i] / seconds[i], 2, kSameTime);
    expect_same_print(
        prints.codes("--split +1@0 +0@5"),
        prints.codes("--split " + in_seconds(2 * seconds[0]) + "@0 " + in_seconds(2 * seconds[1]) + "@5"));
    // Two equal filters are one exposure of both times.
    const auto halves = start_of(prints, "--split +0@2 +0@2 --reciprocity 1 ");
    EXPECT_NEAR((halves[0] + halves[1]) / start_of(prints, "--grade 2 --reciprocity 1 ").front(), 1, 1e-3);
}

TEST(Stops, AcrossAGridASplitKeepsItsProportions) {
    const PatchPrints prints;
    for (const char* split : {"--split +1@0 +0@5 ", "--split 8s@0 4s@5 "}) {
        const json row = cells(prints, std::string(split) + "--across exposure=+0,+1 --down develop=90");
        for (int i = 0; i < 2; ++i) {
            const json& exposures = row[i]["exposures"];
            EXPECT_NEAR(double(exposures[0]["exposure_s"]) / double(exposures[1]["exposure_s"]), 2,
                        kSameTime);
        }
        EXPECT_NEAR(
            double(row[1]["exposures"][0]["exposure_s"]) / double(row[0]["exposures"][0]["exposure_s"]), 2,
            kSameTime);
    }
}

TEST(Stops, BesideAnExposureInSecondsStartWhereTheTwoTogetherComeClosest) {
    const PatchPrints prints;
    const double alone = start_of(prints, "--grade 2 --reciprocity 1 ").front();
    const auto both = start_of(prints, "--reciprocity 1 --split " + in_seconds(alone / 4) + "@2 +0@2 ");
    EXPECT_NEAR(both[0] / alone, 0.25, kSameTime);
    EXPECT_NEAR(both[1] / alone, 0.75, 2e-3);
}

TEST(Stops, DoubleTheExposureOfAPackWithoutAnAnchorToo) {
    const PatchPrints prints;
    prints.program.write("loose.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    const json row = cells(prints, "--grade 2 --across exposure=-1,+0,+1 --down develop=90", "loose.toml");
    for (int i = 0; i < 3; ++i)
        EXPECT_NEAR(double(row[i]["full_black_stops"]) - double(row[1]["full_black_stops"]), i - 1,
                    kSameTime);
    // Its tones are those of the pack that has seconds.
    const auto loose = [&](const std::string& stops) {
        const auto answer = prints.program.run(
            "print neg.tif --pack loose.toml -o out.tif --force --whole --clear 1 --grade 2 --exposure " +
            stops);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return patches_of(prints.program, "out.tif", int(PatchPrints::kLight.size()));
    };
    expect_same_print(loose("+1"), prints.codes("--grade 2 --exposure +1"));
    expect_another_print(loose("+1"), loose("+0"));
}

TEST(Stops, OfASplitFromFullBlackCountAllItsExposures) {
    const PatchPrints prints;
    const auto numbers = [&](const std::string& recipe) {
        return cells(prints, "--reciprocity 1 " + recipe + " --across redevelop=0 --down develop=90")[0];
    };
    const json one = numbers("--grade 2 --exposure 12s"), halves = numbers("--split 4s@2 8s@2"),
               twice = numbers("--split 8s@2 16s@2");
    EXPECT_NEAR(double(halves["full_black_stops"]), double(one["full_black_stops"]), 1e-6);
    EXPECT_NEAR(double(twice["full_black_stops"]) - double(halves["full_black_stops"]), 1, 1e-6);
    // Each by itself, through its own filter.
    EXPECT_NEAR(double(halves["exposures"][0]["full_black_stops"]),
                double(one["full_black_stops"]) - std::log2(3), 1e-6);
    EXPECT_NEAR(double(halves["exposures"][1]["full_black_stops"]),
                double(one["full_black_stops"]) - std::log2(1.5), 1e-6);
}

TEST(Stops, OfASplitAreToldOfEachExposureWhereNoSecondsAre) {
    const PatchPrints prints;
    prints.program.write("loose.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    const auto answer =
        prints.program.run("print neg.tif --pack loose.toml -o out.tif --whole --clear 1 --split +0@0 +1@5");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_TRUE(std::regex_search(
        answer.err, std::regex("full black [+-][0-9.]+ stop at 0 \\+ full black [+-][0-9.]+ stop at 5")))
        << answer.err;
}

}  // namespace
}  // namespace fogproof::tests
