// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of `read`, asked of the program on drawn flatbed scans whose densities are known.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

// What a flatbed is good to (assumed): whites, and steps that a second patch does not tie down.
constexpr double kFlatbed = 0.03;
const std::vector<double> kSteps{1.7, 1.3, 0.9, 0.6, 0.4, 0.25, 0.16};

StripScan scan_of(std::vector<double> steps) {
    StripScan scan{.width = 900, .height = 400, .lid = 0.05};
    scan.dust = 10, scan.noise = 0.002, scan.seed = 8;
    DrawnStrip strip;
    strip.x = 450, strip.y = 160, strip.length = 760, strip.width = 120;
    strip.densities = std::move(steps);
    scan.strips = {strip};
    scan.patches = {{{60, 290, 140, 80}, 0.09}, {{700, 290, 140, 80}, 1.5}};
    return scan;
}

class ReadOptions : public ::testing::Test {
  protected:
    void SetUp() override { scan_of(kSteps).linear().tiffsave((program_ / "scan.tif").c_str()); }
    /// Rows that one call appends to an empty file.
    std::vector<Reading> rows(const std::string& options, const std::string& scan = "scan.tif") {
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer =
            program_.run("read " + scan + " --white 80,305,100,50=0.09 -o rows.csv --steps 7 " + options);
        EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
        if (answer.code != 0) return {};
        return parse_readings(content_of(program_ / "rows.csv"), "rows.csv");
    }
    Program program_;
};

TEST_F(ReadOptions, WhiteTiesTheScaleToAKnownPatch) {
    const auto read = rows("");
    ASSERT_THAT(read, SizeIs(7));
    for (std::size_t i = 0; i < 7; ++i) EXPECT_NEAR(read[i].density, kSteps[i], kFlatbed) << i;
}

TEST_F(ReadOptions, CarrierIsWrittenIntoEveryRow) {
    for (const Reading& row : rows("--exposure 8 --carrier empty")) EXPECT_EQ(row.carrier_density, 0);
    for (const Reading& row : rows("--exposure 8 --carrier 0.28")) EXPECT_EQ(row.carrier_density, 0.28);
    EXPECT_EQ(rows("--exposure 8").front().carrier_density, std::nullopt);
}

TEST_F(ReadOptions, DarkTakesTheScannersStrayLightOff) {
    StripScan hazy = scan_of(kSteps);
    hazy.stray = 0.01;
    hazy.linear().tiffsave((program_ / "hazy.tif").c_str());
    const double without = rows("", "hazy.tif").front().density,
                 with = rows("--dark 720,305,100,50=1.5", "hazy.tif").front().density;
    EXPECT_LT(without, kSteps.front() - 2 * kFlatbed);
    EXPECT_NEAR(with, kSteps.front(), kFlatbed);
}

TEST_F(ReadOptions, EncodingSaysWhatTheCodesStandFor) {
    scan_of(kSteps).srgb().write_to_file((program_ / "srgb.tif").c_str());
    const auto read = rows("--encoding srgb", "srgb.tif");
    ASSERT_THAT(read, SizeIs(7));
    for (std::size_t i = 2; i < 7; ++i) EXPECT_NEAR(read[i].density, kSteps[i], kFlatbed) << i;
    // The same codes taken as linear are other densities.
    EXPECT_LT(rows("--encoding linear", "srgb.tif").front().density, kSteps.front() - 0.3);
}

TEST_F(ReadOptions, LabelsGoIntoTheRows) {
    const auto read = rows(
        "--strip attic --exposure 20 --filter 3 --restrainer 20 --develop 75 --bleach 40 --parts 30 "
        "--redevelop 15 --wedge 0.05,0.3,7");
    for (const Reading& row : read) {
        EXPECT_EQ(row.strip, "attic");
        EXPECT_EQ(row.exposure_s, 20);
        EXPECT_EQ(row.filter, 3);
        EXPECT_EQ(row.restrainer_ml_l, 20);
        EXPECT_EQ(row.develop_s, 75);
        EXPECT_EQ(row.bleach_s, 40);
        EXPECT_EQ(row.bleach_parts, 30);
        EXPECT_EQ(row.redevelop_s, 15);
    }
    // The darkest step lay under the thinnest of the wedge.
    EXPECT_NEAR(read.front().wedge_density.value(), 0.05, 1e-9);
    EXPECT_NEAR(read.back().wedge_density.value(), 0.05 + 6 * 0.3, 1e-9);
}

TEST_F(ReadOptions, ExposuresAreThoseOfTheBandsLongestDarkest) {
    const auto read = rows("--exposures 2,3,4,6,8,12,16");
    ASSERT_THAT(read, SizeIs(7));
    EXPECT_EQ(read.front().exposure_s, 16);
    EXPECT_EQ(read.back().exposure_s, 2);
}

TEST_F(ReadOptions, FrameLooksNowhereElse) {
    StripScan two = scan_of(kSteps);
    two.height = 600;
    DrawnStrip other = two.strips.front();
    other.y = 500;
    two.strips.push_back(other);
    two.linear().tiffsave((program_ / "two.tif").c_str());
    EXPECT_THAT(rows("", "two.tif"), SizeIs(14));
    EXPECT_THAT(rows("--frame 20,40,860,345", "two.tif"), SizeIs(7));
}

TEST_F(ReadOptions, LeaveOutKeepsTheStepsThatAreNotClipped) {
    StripScan bright = scan_of(kSteps);
    bright.full_scale = 1.7;  // paper white runs over the top of the scale
    bright.linear().tiffsave((program_ / "bright.tif").c_str());
    const std::string words =
        "read bright.tif --dark 720,305,100,50=1.5 --white 410,120,60,60=0.6 -o rows.csv --steps 7";
    const auto refused = program_.run(words);
    EXPECT_NE(refused.code, 0);
    EXPECT_THAT(refused.err, HasSubstr("clipped"));
    const auto left = program_.run(words + " --leave-out");
    ASSERT_EQ(left.code, 0) << left.err;
    EXPECT_THAT(parse_readings(content_of(program_ / "rows.csv"), "rows.csv").size(), testing::Lt(7U));
}

TEST_F(ReadOptions, JsonHoldsTheRows) {
    const auto answer = program_.run("read scan.tif --white 80,305,100,50=0.09 -o rows.csv --steps 7 --json");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_EQ(nlohmann::json::parse(answer.out)["rows"].size(), 7U);
}

TEST_F(ReadOptions, OnlyForceReplacesAPicture) {
    program_.write("seen.png", "kept");
    const std::string words = "read scan.tif --white 80,305,100,50=0.09 --steps 7 --picture seen.png ";
    EXPECT_NE(program_.run(words + "-o rows.csv").code, 0);
    EXPECT_EQ(content_of(program_ / "seen.png"), "kept");
    EXPECT_EQ(program_.run(words + "--force -o other.csv").code, 0);
    EXPECT_NE(content_of(program_ / "seen.png"), "kept");
}

TEST_F(ReadOptions, LargerScansAreRefusedBeforeTheyAreRead) {
    const auto answer =
        program_.run("read scan.tif --white 80,305,100,50=0.09 -o rows.csv --max-pixels 10000");
    EXPECT_NE(answer.code, 0);
    EXPECT_THAT(answer.err, HasSubstr("900 x 400"));
}

TEST_F(ReadOptions, TheUnbleachedHalfOfARedevelopedStripWasNotRedeveloped) {
    StripScan scan = scan_of(kSteps);
    scan.strips.front().bleached = 0.5;
    scan.linear().tiffsave((program_ / "halves.tif").c_str());
    for (const Reading& row : rows("--halves --bleach 40 --redevelop 30", "halves.tif")) {
        const bool is_bleached = row.strip.ends_with("-bleached");
        EXPECT_EQ(row.bleach_s, is_bleached ? 40 : 0);
        EXPECT_EQ(row.redevelop_s, is_bleached ? 30 : 0);
    }
}

TEST_F(ReadOptions, StepsWithoutSecondsAreDoubted) {
    const auto said = [&](const std::string& options) {
        return program_.run("read scan.tif --white 80,305,100,50=0.09 --force -o " + options).err;
    };
    EXPECT_THAT(said("bare.csv"), HasSubstr("no seconds are told, so its 7 steps are taken as unexposed"));
    EXPECT_THAT(said("timed.csv --exposures 1,2,4,8,16,32,64"), Not(HasSubstr("no seconds are told")));
    EXPECT_THAT(said("wedge.csv --wedge 0.05,0.3,7"), Not(HasSubstr("no seconds are told")));
}

// What the scan counts from is known of the paper, too: the fixed slip's doubt in all, the scan's beside it.
TEST_F(ReadOptions, ASlipThatWasOnlyFixedIsAReadingOfThePapersWhite) {
    std::filesystem::remove(program_ / "rows.csv");
    ASSERT_EQ(program_.run("read scan.tif --known 2=fixed --exposures 1,2,4,8,16,32,64 -o rows.csv").code, 0);
    const auto read = parse_readings(content_of(program_ / "rows.csv"), "rows.csv");
    ASSERT_THAT(read, SizeIs(8));
    const Reading& slip = read.back();
    EXPECT_EQ(slip.strip, "scan-fixed");
    EXPECT_EQ(slip.develop_s, 0);
    EXPECT_EQ(slip.exposure_s, 0);
    EXPECT_EQ(slip.density, 0.085);
    EXPECT_NEAR(*slip.common_error, 0.0125, 0.001) << "of all such slips together";
    EXPECT_NE(slip.instrument, read.front().instrument);
    // The same scan read once more, for another strip on it: the slip stands already.
    const auto again =
        program_.run("read scan.tif --known 2=fixed --strip other --exposures 1,2,4,8,16,32,64 -o rows.csv");
    ASSERT_EQ(again.code, 0) << again.err;
    EXPECT_THAT(parse_readings(content_of(program_ / "rows.csv"), "rows.csv"), SizeIs(15));
    EXPECT_THAT(rows("--exposures 1,2,4,8,16,32,64"), SizeIs(7)) << "a density alone may be anything's";
}

TEST_F(ReadOptions, OfAnInstrumentsTableTheColumnsThatAreOursCount) {
    program_.write(
        "table.csv",
        "ID,Date,DENSITY,visual,note\n1,2026-11-30,1.20,x,\"a, b\"\n2,2026-11-30,0.80,y,c\n3,,0.40,z,\n");
    const auto answer = program_.run("read table.csv --exposures 2,4,8 -o table-rows.csv");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.err, HasSubstr("left out: ID, Date, visual, note"));
    const auto read = parse_readings(content_of(program_ / "table-rows.csv"), "rows.csv");
    ASSERT_THAT(read, SizeIs(3));
    EXPECT_EQ(read.front().density, 1.2);
    EXPECT_EQ(read.front().exposure_s, 8);
    program_.write("typo.csv", "density,exposre_s\n1.2,8\n");
    const auto refused = program_.run("read typo.csv -o none.csv");
    EXPECT_EQ(refused.code, 65);
    EXPECT_THAT(refused.err, HasSubstr("exposure_s, which is nearest"));
}

// Towards the end of a paper's curve its steps draw together: what lies far beyond the last one is the lid.
TEST_F(ReadOptions, StepsThatWereCutOffAreNotReadOffTheLid) {
    StripScan cut = scan_of({1.2, 0.95, 0.75, 0.6, 0.5, 0.44, 0.41, 0.4});
    cut.strips.front().x = 260, cut.strips.front().length = 400;
    cut.linear().tiffsave((program_ / "cut.tif").c_str());
    const auto answer = program_.run(
        "read cut.tif --white 80,305,100,50=0.09 -o rows.csv --wedge 0.05,0.15,11 --exposure 12");
    EXPECT_EQ(answer.code, 65) << answer.err;
    EXPECT_THAT(answer.err, HasSubstr("11 steps, as told"));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

}  // namespace
}  // namespace fogproof::tests
