// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Reading strips off drawn scans, whose densities are known because the test drew them, and densities out of
// instruments' files, for which Little CMS writes the CGATS.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <sys/wait.h>

#include <array>
#include <fstream>
#include <functional>
#include <sstream>

#include "fogproof/base/error.hpp"
#include "fogproof/base/whole_file.hpp"
#include "fogproof/calibrate/readings.hpp"
#include "fogproof/calibrate/strip_labels.hpp"
#include "fogproof/calibrate/strip_reading.hpp"
#include "fogproof/render/cgats.hpp"
#include "fogproof/render/reflection_scan.hpp"
#include "strip_scan.hpp"
#include "support/program.hpp"

namespace fogproof {
namespace {

using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

// The promise of the command, for 8-bit scans too: 0.02 plus one percent of the density.
double promised(double density) {
    return 0.02 + 0.01 * density;
}
constexpr double kRounding = 1e-6;  // of densities that pass through text and double arithmetic

class Reads : public ::testing::Test {
  protected:
    TestFolder folder_;

    // The middle of the drawn patches, as a user would mark them.
    static StripRequest request_for(const StripScan& scan, std::optional<int> steps = {}) {
        StripRequest request;
        request.place = "scan";
        request.steps = steps;
        for (const auto& [at, density] : scan.patches)
            request.known.push_back({{at.left + 12, at.top + 12, at.width - 24, at.height - 24}, density});
        return request;
    }
    ScanReading read(const vips::VImage& picture, const StripRequest& request, bool as_jpeg = false) {
        const auto path = folder_ / (as_jpeg ? "scan.jpg" : "scan.tif");
        if (as_jpeg)
            picture.jpegsave(path.c_str(), vips::VImage::option()->set("Q", 85));
        else
            picture.tiffsave(path.c_str());
        Notes notes;
        return strips_read(reflection_scan(path, {}, kUsualMaxPixels, notes), request);
    }
    std::string refusal(const vips::VImage& picture, const StripRequest& request) {
        try {
            static_cast<void>(read(picture, request));
        } catch (const Error& error) {
            EXPECT_THAT(std::string(error.what()), Not(HasSubstr("\n")));
            return error.what();
        }
        ADD_FAILURE() << "was read";
        return {};
    }
    static void expect_densities(const std::vector<StepReading>& steps, std::vector<double> truth) {
        std::ranges::sort(truth, std::greater<>());
        ASSERT_THAT(steps, SizeIs(truth.size()));
        for (std::size_t i = 0; i < truth.size(); ++i) {
            EXPECT_EQ(steps[i].step, int(i) + 1);
            EXPECT_NEAR(steps[i].density.value, truth[i], promised(truth[i])) << "step " << i + 1;
        }
    }
};

StripScan plain_scan(std::vector<double> densities) {
    StripScan scan;
    scan.width = 900, scan.height = 400;
    DrawnStrip strip;
    strip.x = 440, strip.y = 150, strip.length = 760, strip.width = 120;
    strip.degrees = 1.3;
    strip.densities = std::move(densities);
    scan.strips.push_back(strip);
    scan.patches.push_back({{300, 300, 160, 80}, 0.12});
    scan.noise = 0.002, scan.dust = 40;
    return scan;
}

// Everything about it by chance, from one number.
StripScan wedge_by_chance(unsigned seed) {
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    StripScan scan = plain_scan({});
    scan.seed = seed;
    DrawnStrip& strip = scan.strips.front();
    strip.degrees = between(-3, 3);
    strip.length = between(680, 780), strip.width = between(90, 140), strip.y = between(140, 170);
    strip.white = between(0.08, 0.25);
    strip.densities =
        printed_wedge(21, 0.15, strip.white, between(1.6, 2.1), between(2, 4), between(1.2, 1.9));
    if (random() % 2 == 0) std::ranges::reverse(strip.densities);
    if (random() % 3 == 0) strip.margin = between(4, 16), strip.margin_density = strip.white;
    scan.patches.front() = {{int(between(60, 700)), 300, 160, 80}, between(0.1, 0.3)};
    scan.fall_towards = between(0, 6.28);
    scan.noise = between(0.0005, 0.003);
    scan.lid = between(0.04, 0.10);
    return scan;
}

TEST_F(Reads, EveryStepOfPrintedWedgesTurnedUnevenNoisyAndDusty) {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        SCOPED_TRACE(seed);
        const StripScan scan = wedge_by_chance(seed);
        const bool as_jpeg = seed % 2 == 0;
        const auto result = read(as_jpeg ? scan.srgb() : scan.linear(), request_for(scan, 21), as_jpeg);
        ASSERT_THAT(result.strips, SizeIs(1));
        expect_densities(result.strips[0].steps, scan.strips[0].densities);
    }
}

TEST_F(Reads, StepsAreCountedWhereNobodyTellsTheirNumber) {
    const StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 2.0));
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, PaperBesideTheStepsIsNoStep) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.35, 2.0));
    scan.strips[0].margin = 30, scan.strips[0].margin_density = 0.2;
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, WhereMoreStepsMayHideInTheLidTheCountSaysSo) {
    auto densities = printed_wedge(9, 0.2, 0.07, 1.9, 4, 0.8);
    densities.insert(densities.end(), 3, 0.065);
    const StripScan scan = plain_scan(densities);
    const auto result = read(scan.linear(), request_for(scan));
    EXPECT_THAT(result.notes, ::testing::Contains(HasSubstr("there may be more")));
}

TEST_F(Reads, SeveralStripsComeInTheOrderOfAPage) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 2.0));
    scan.height = 520;
    scan.strips[0].y = 330, scan.strips[0].width = 100;
    DrawnStrip left = scan.strips[0], right = scan.strips[0];
    left.x = 220, left.y = 130, left.length = 360, left.degrees = -2;
    left.densities = printed_wedge(7, 0.4, 0.2, 1.8);
    right.x = 670, right.y = 110, right.length = 380, right.degrees = 2;
    right.densities = printed_wedge(6, 0.4, 0.15, 1.5);
    scan.strips.push_back(right), scan.strips.push_back(left);
    scan.patches[0].at.top = 420;
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(3));
    EXPECT_EQ(result.strips[0].step_count, 7);
    EXPECT_EQ(result.strips[1].step_count, 6);
    EXPECT_EQ(result.strips[2].step_count, 11);
    expect_densities(result.strips[0].steps, left.densities);
    expect_densities(result.strips[1].steps, right.densities);
}

TEST_F(Reads, BandsExposedByHandMayBeOfUnequalLength) {
    StripScan scan = plain_scan({0.15, 0.35, 0.8, 1.3, 1.7});
    scan.strips[0].lengths = {1.2, 0.8, 1.0, 1.35, 0.75};
    const auto result = read(scan.linear(), request_for(scan, 5));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, AStripThatStandsUprightInTheScan) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 2.0));
    scan.width = 460, scan.height = 900;
    scan.strips[0].x = 150, scan.strips[0].y = 440, scan.strips[0].degrees = 88;
    scan.patches[0].at = {290, 500, 120, 120};
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, StepsMergedIntoBlackAndWhiteFollowThePitch) {
    // Four steps of full black, three of paper white.
    auto densities = printed_wedge(14, 0.15, 0.15, 1.9, 4, 1.0);
    densities.insert(densities.begin(), 4, 1.93);
    densities.insert(densities.end(), 3, 0.15);
    const StripScan scan = plain_scan(densities);
    for (const auto told : {std::optional<int>(21), std::optional<int>()}) {
        const auto result = read(scan.linear(), request_for(scan, told));
        ASSERT_THAT(result.strips, SizeIs(1));
        expect_densities(result.strips[0].steps, densities);
    }
}

TEST_F(Reads, WhiteStepsThatLookLikeTheLidFollowThePitchWhenTheirNumberIsTold) {
    auto densities = printed_wedge(9, 0.2, 0.07, 1.9, 4, 0.8);
    densities.insert(densities.end(), 3, 0.065);
    StripScan scan = plain_scan(densities);
    scan.lid = 0.06;
    const auto result = read(scan.linear(), request_for(scan, 12));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, densities);
    EXPECT_THAT(result.notes, ::testing::Contains(HasSubstr("look like the background")));
}

TEST_F(Reads, ABlackLidHidesNothing) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 1.6));
    scan.lid = 2.2, scan.fall_off = 0;
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, ALongSlipBesideTheStripEvensOutTheLightUnderABlackLid) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 1.6));
    scan.lid = 2.2, scan.fall_towards = 0.3;
    scan.patches[0].at = {60, 290, 780, 90};
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, AScanCutToTheStripHasNoLidAndIsReadAllTheSame) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 1.8));
    scan.strips[0].x = 450, scan.strips[0].y = 60, scan.strips[0].length = 900, scan.strips[0].width = 240;
    scan.strips[0].degrees = 1.0, scan.height = 120, scan.fall_off = 0.01;
    scan.patches.clear();
    scan.full_scale = 1;
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
    EXPECT_THAT(result.notes, ::testing::Contains(HasSubstr("taken as density 0")));
}

TEST_F(Reads, HalvesOfABleachedStripComeAsPairs) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.1, 1.8));
    scan.strips[0].bleached = 0.6;
    StripRequest request = request_for(scan);
    request.halves = true;
    const auto result = read(scan.linear(), request);
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
    std::vector<double> bleached;
    for (const double density : scan.strips[0].densities) bleached.push_back(0.1 + 0.6 * (density - 0.1));
    expect_densities(result.strips[0].bleached, bleached);
}

TEST_F(Reads, ASecondKnownPatchRemovesStrayLight) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 2.0));
    scan.stray = 0.008;  // near a black of density 2: read as 1.75 without the second patch
    scan.fall_off = 0;
    scan.patches.push_back({{560, 300, 160, 80}, 1.8});
    const auto result = read(scan.linear(), request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, PlainPatchesOneByOneWhenAskedForOneStep) {
    StripScan scan = plain_scan({0.45});
    scan.strips[0].length = 200;
    const auto result = read(scan.linear(), request_for(scan, 1));
    ASSERT_THAT(result.strips, SizeIs(1)) << "the known patch is no reading";
    EXPECT_NEAR(result.strips[0].steps.at(0).density.value, 0.45, promised(0.45));
}

TEST_F(Reads, TheEmbeddedProfileSaysWhatTheCodesStandFor) {
    const StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 1.9));
    // A grey profile of gamma 1.8, made by Little CMS, and codes to match.
    cmsToneCurve* curve = cmsBuildGamma(nullptr, 1.8);
    cmsHPROFILE profile = cmsCreateGrayProfile(cmsD50_xyY(), curve);
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::vector<std::uint8_t> icc(size);
    cmsSaveProfileToMem(profile, icc.data(), &size);
    cmsCloseProfile(profile);
    cmsFreeToneCurve(curve);
    vips::VImage coded = (scan.linear() / 65535.0).pow(1 / 1.8) * 65535.0 + 0.5;
    coded = coded.cast(VIPS_FORMAT_USHORT)
                .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_GREY16))
                .copy_memory();
    vips_image_set_blob_copy(coded.get_image(), VIPS_META_ICC_NAME, icc.data(), icc.size());
    const auto result = read(coded, request_for(scan));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(Reads, AnEmptyScanIsRefused) {
    StripScan scan = plain_scan({0.5});
    scan.strips.clear();
    EXPECT_THAT(refusal(scan.linear(), request_for(scan)), HasSubstr("holds no strip"));
}

TEST_F(Reads, ClippedStepsAreRefusedByNumberAndPlace) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.1, 1.9));
    scan.lid = 0.4, scan.full_scale = 1.6;
    scan.patches[0].density = 0.35;
    const std::string text = refusal(scan.linear(), request_for(scan));
    EXPECT_THAT(text, HasSubstr("step 11 at "));
    EXPECT_THAT(text, HasSubstr("clipped"));
}

TEST_F(Reads, LeavingOutKeepsTheNumbersOfTheStepsThatRemain) {
    StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.1, 1.9));
    scan.lid = 0.4, scan.full_scale = 1.6;
    scan.patches[0].density = 0.35;
    StripRequest request = request_for(scan);
    request.leave_out = true;
    const auto result = read(scan.linear(), request);
    ASSERT_THAT(result.strips, SizeIs(1));
    EXPECT_LT(result.strips[0].steps.size(), 11u);
    for (const auto& step : result.strips[0].steps)
        EXPECT_NEAR(step.density.value, scan.strips[0].densities[std::size_t(step.step - 1)],
                    promised(step.density.value));
}

TEST_F(Reads, HalfBleachedStripsReadAsWholeOnesAreNamedAsSuch) {
    for (const double bleached : {0.6, 0.85, 0.3}) {
        StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.1, 1.8));
        scan.strips[0].bleached = bleached;
        EXPECT_THAT(refusal(scan.linear(), request_for(scan)),
                    AllOf(HasSubstr("one half of it is lighter all along"),
                          HasSubstr("--halves --bleach SECONDS"), Not(HasSubstr("step 2"))))
            << bleached;
    }
}

TEST_F(Reads, AWhiteLidIsBlamedForWhiteSlips) {
    StripScan scan = plain_scan({0.09});
    scan.strips[0].length = 200;
    EXPECT_THAT(
        refusal(scan.linear(), request_for(scan, 1)),
        AllOf(HasSubstr("holds no patch;"), HasSubstr("as white as the lid"), HasSubstr("black card")));
    EXPECT_THAT(refusal(scan.linear(), request_for(scan)),
                AllOf(HasSubstr("holds no strip"), HasSubstr("black card")));
    scan.lid = 2.2, scan.fall_off = 0;
    EXPECT_THAT(read(scan.linear(), request_for(scan, 1)).strips, SizeIs(1));
    // One of two is seen: the answer says that there may be more.
    scan.lid = 0.06;
    scan.strips.push_back(scan.strips[0]);
    scan.strips[1].x += 400, scan.strips[1].densities = {0.5};
    EXPECT_THAT(read(scan.linear(), request_for(scan, 1)).notes,
                ::testing::Contains(AllOf(HasSubstr("1 patch found"), HasSubstr("as white as the lid"))));
}

TEST_F(Reads, WholeStripsReadAsHalvesAreRefused) {
    const StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.1, 1.8));
    StripRequest request = request_for(scan);
    request.halves = true;
    EXPECT_THAT(refusal(scan.linear(), request), HasSubstr("its halves do not differ"));
}

TEST_F(Reads, AnotherNumberOfStepsThanToldIsRefused) {
    const StripScan scan = plain_scan(printed_wedge(11, 0.3, 0.2, 1.9));
    for (const int told : {9, 14, 21})
        EXPECT_THAT(refusal(scan.linear(), request_for(scan, told)),
                    HasSubstr("expected (--steps " + std::to_string(told) + ")"))
            << told;
}

TEST_F(Reads, APhotographIsRefused) {
    // Sky, hills and shrubs: soft tones with edges at no regular distance.
    const vips::VImage photo = raster<std::uint8_t>(
        900, 600, 3,
        [](int x, int y, int) {
            const double hill = 300 + 80 * std::sin(x / 90.0) + 30 * std::sin(x / 31.0 + 1);
            if (y < hill) return 200 - 60 * y / 600.0 + 15 * std::sin(x / 140.0 + y / 60.0);
            return 90 + 50 * std::sin(x / 17.0) * std::sin(y / 13.0) - 30 * (y - hill) / 300;
        },
        VIPS_INTERPRETATION_sRGB);
    StripRequest request;
    request.place = "scan";
    EXPECT_THAT(refusal(photo, request), AnyOf(HasSubstr("too uneven"), HasSubstr("holds no strip"),
                                               HasSubstr("no regular distance")));
    request.steps = 21;
    static_cast<void>(refusal(photo, request));
}

TEST_F(Reads, APhotographOnTheLidIsRefusedToo) {
    StripScan scan = plain_scan({0.5});
    scan.strips.clear();
    const vips::VImage photo = raster<float>(
        600, 220, 1,
        [](int x, int y, int) {
            return 0.25 + 0.15 * std::sin(x / 40.0 + y / 90.0) +
                   0.08 * std::sin(x / 11.0) * std::sin(y / 9.0);
        },
        VIPS_INTERPRETATION_B_W);
    const vips::VImage whole =
        ((scan.light().insert(photo, 120, 40) * 65535.0).cast(VIPS_FORMAT_USHORT))
            .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_GREY16));
    EXPECT_THAT(refusal(whole, request_for(scan)), AnyOf(HasSubstr("too uneven"), HasSubstr("holds no strip"),
                                                         HasSubstr("no regular distance")));
}

// A file as an instrument's program would leave it, written by Little CMS.
std::string cgats(const std::vector<const char*>& columns,
                  const std::vector<std::vector<std::string>>& rows) {
    const cmsHANDLE table = cmsIT8Alloc(nullptr);
    cmsIT8SetSheetType(table, "CGATS.17");
    cmsIT8SetPropertyDbl(table, "NUMBER_OF_FIELDS", double(columns.size()));
    cmsIT8SetPropertyDbl(table, "NUMBER_OF_SETS", double(rows.size()));
    for (std::size_t i = 0; i < columns.size(); ++i) cmsIT8SetDataFormat(table, int(i), columns[i]);
    for (std::size_t row = 0; row < rows.size(); ++row)
        for (std::size_t i = 0; i < columns.size(); ++i)
            cmsIT8SetDataRowCol(table, int(row), int(i), rows[row][i].c_str());
    cmsUInt32Number size = 0;
    cmsIT8SaveToMem(table, nullptr, &size);
    std::string text(size, '\0');
    cmsIT8SaveToMem(table, text.data(), &size);
    cmsIT8Free(table);
    while (!text.empty() && text.back() == '\0') text.pop_back();
    return text;
}

TEST(Cgats, VisualDensitiesComeAsTheInstrumentGaveThem) {
    const std::string text =
        cgats({"SAMPLE_ID", "D_RED", "D_VIS"}, {{"1", "0.11", "0.12"}, {"2", "1.20", "1.234"}});
    ASSERT_TRUE(is_cgats(text)) << text;
    const auto read = cgats_readings(text, "spots.txt");
    ASSERT_THAT(read.rows, SizeIs(2));
    EXPECT_NEAR(read.rows[0].density.value, 0.12, kRounding);
    EXPECT_NEAR(read.rows[1].density.value, 1.234, kRounding);
    EXPECT_EQ(read.rows[1].sample, "2");
    EXPECT_TRUE(read.notes.empty());
}

TEST(Cgats, LightnessAndLuminanceBecomeDensityWithANote) {
    // CIE 15: L* 49.4961 and Y 18 are the same grey, density 0.7447.
    for (const auto& [column, value] : {std::pair{"LAB_L", "49.4961"}, {"XYZ_Y", "18.0"}}) {
        const auto read = cgats_readings(cgats({"SAMPLE_ID", column}, {{"A1", value}}), "spots.txt");
        EXPECT_NEAR(read.rows.at(0).density.value, 0.7447, 1e-4) << column;
        EXPECT_THAT(read.notes, ::testing::Contains(HasSubstr("differs a little"))) << column;
    }
}

TEST(Cgats, WhatHoldsNoDensityIsRefused) {
    const auto refusal = [](const std::string& text) -> std::string {
        try {
            static_cast<void>(cgats_readings(text, "spots.txt"));
        } catch (const Error& error) {
            EXPECT_EQ(error.fault(), Fault::data);
            return error.what();
        }
        return "was read";
    };
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "RGB_R"}, {{"1", "200"}})), HasSubstr("D_VIS, DENSITY"));
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "dark"}})), HasSubstr("sample 1 is \"dark\""));
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "9.9"}})), HasSubstr("-0.05 to 4"));
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "XYZ_Y"}, {{"1", "0.8"}, {"2", "0.1"}})),
                HasSubstr("Y on the scale 0 to 100"));
    std::string broken = cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "0.1"}, {"2", "0.2"}});
    broken.resize(broken.find("0.2"));
    EXPECT_THAT(refusal(broken), HasSubstr("sample 2"));
    EXPECT_THAT(refusal("CGATS.17\nBEGIN_DATA_FORMAT\n\"D_VIS\nEND_DATA_FORMAT\n"), HasSubstr("damaged"));
}

StripReading strip_of(const std::vector<double>& densities) {
    StripReading strip{{}, {}, {}, int(densities.size())};
    for (std::size_t i = 0; i < densities.size(); ++i)
        strip.steps.push_back({int(i) + 1, {densities[i]}, 0.01, 100, {}});
    return strip;
}

TEST(StripLabels, TheUsualWedgeRunsFromTheDarkestStepOn) {
    // 0.05 to 3.05 in 21 steps: US Navy training manual NAVEDTRA 14209, p. 10-40.
    StripLabels labels;
    labels.wedge = StepWedge{};
    labels.common.strip = "A", labels.common.filter = 2;
    const auto rows = labelled(strip_of(printed_wedge(21, 0.15, 0.1, 2.0)), labels);
    ASSERT_THAT(rows, SizeIs(21));
    EXPECT_NEAR(rows.front().wedge_density.value(), 0.05, kRounding);
    EXPECT_NEAR(rows.back().wedge_density.value(), 3.05, kRounding);
    EXPECT_GT(rows.front().density, rows.back().density);
    EXPECT_EQ(rows[7].filter, 2);
}

TEST(StripLabels, TheLongestExposureIsTheDarkestBandInWhateverOrderTheyAreTold) {
    StripLabels labels;
    labels.exposures = {4, 2, 16, 8};
    const auto rows = labelled(strip_of({1.6, 1.1, 0.6, 0.2}), labels);
    for (const auto& [row, seconds] : {std::pair{0, 16.0}, {1, 8.0}, {2, 4.0}, {3, 2.0}})
        EXPECT_EQ(rows[std::size_t(row)].exposure_s, seconds);
}

TEST(StripLabels, HalvesBecomeTwoStripsOfOnePaper) {
    StripLabels labels;
    labels.common.strip = "B", labels.common.bleach_s = 40, labels.common.bleach_parts = 50;
    StripReading strip = strip_of({1.6, 0.6});
    strip.bleached = strip_of({1.2, 0.4}).steps;
    const auto rows = labelled(strip, labels);
    ASSERT_THAT(rows, SizeIs(4));
    EXPECT_EQ(rows[0].strip, "B-before");
    EXPECT_EQ(rows[0].bleach_s, 0);
    EXPECT_EQ(rows[0].bleach_parts, std::nullopt);
    EXPECT_EQ(rows[2].strip, "B-bleached");
    EXPECT_EQ(rows[2].bleach_s, 40);
    EXPECT_EQ(rows[2].bleach_parts, 50);
}

TEST(StripLabels, ReadingsOfAnInstrumentMayRunEitherWayButNotBothWays) {
    StripLabels labels;
    labels.wedge = StepWedge{0.05, 0.3, 3};
    std::vector<Reading> rows(3);
    rows[0].density = 0.2, rows[1].density = 0.9, rows[2].density = 1.7;
    const auto up = labelled(rows, labels, "spots.txt");
    EXPECT_NEAR(up[0].wedge_density.value(), 0.65, kRounding);
    EXPECT_NEAR(up[2].wedge_density.value(), 0.05, kRounding);
    rows[2].density = 0.5;
    EXPECT_THROW(static_cast<void>(labelled(rows, labels, "spots.txt")), Error);
    rows.pop_back();
    EXPECT_THROW(static_cast<void>(labelled(rows, labels, "spots.txt")), Error);
}

// The command as it is typed.
class ReadCommand : public ::testing::Test {
  protected:
    int run(const std::string& words) {
        const auto answer = program_.run("read " + words);
        said_ = answer.err;
        return answer.code;
    }
    [[nodiscard]] std::string said() const { return said_; }
    [[nodiscard]] std::string file(const std::string& name) const { return (program_ / name).string(); }
    void SetUp() override {
        StripScan scan = plain_scan(printed_wedge(21, 0.15, 0.12, 1.9));
        scan.strips[0].bleached = 0.7, scan.strips[0].white = 0.12;
        scan.linear().tiffsave(file("scan.tif").c_str());
    }
    Program program_;
    std::string said_;
};

constexpr const char* kKnown = " --white 312,312,136,56=0.12 ";

TEST_F(ReadCommand, AppendsRowsAndNeverTouchesThoseBefore) {
    const std::string words = file("scan.tif") + kKnown +
                              "--wedge 0.05,0.15,21 --halves --bleach 40 --parts 50" +
                              " --filter 2 --strip A -o " + file("readings.csv");
    ASSERT_EQ(run(words + " --picture " + file("seen.png")), 0) << said();
    const std::string first = read_whole(file("readings.csv"));
    const auto rows = parse_readings(first, "readings.csv");
    ASSERT_THAT(rows, SizeIs(42));
    EXPECT_EQ(rows[0].strip, "A-before");
    EXPECT_EQ(rows[41].strip, "A-bleached");
    EXPECT_EQ(rows[41].bleach_s, 40);
    EXPECT_EQ(vips::VImage::new_from_file(file("seen.png").c_str()).bands(), 3);
    std::string again = words;
    again.replace(again.find("--strip A"), 9, "--strip B");
    ASSERT_EQ(run(again), 0) << said();
    const std::string second = read_whole(file("readings.csv"));
    EXPECT_TRUE(second.starts_with(first));
    EXPECT_THAT(parse_readings(second, "readings.csv"), SizeIs(84));
}

TEST_F(ReadCommand, TakesCgatsAndCsvBesideScans) {
    std::ofstream(file("spots.txt")) << cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "0.31"}, {"2", "1.50"}});
    std::ofstream(file("own.csv")) << "density,strip\n0.28,slip\n";
    ASSERT_EQ(run(file("spots.txt") + " " + file("own.csv") + " --strip spot --strip x --exposure 0 -o " +
                  file("readings.csv")),
              0)
        << said();
    const auto rows = parse_readings(read_whole(file("readings.csv")), "readings.csv");
    ASSERT_THAT(rows, SizeIs(3));
    EXPECT_EQ(rows[0].strip, "spot");
    EXPECT_EQ(rows[1].density, 1.5);
    EXPECT_EQ(rows[2].strip, "slip") << "what a row says of itself stays";
    EXPECT_EQ(rows[2].exposure_s, 0);
}

TEST_F(ReadCommand, RefusalsLeaveNoReadings) {
    std::ofstream(file("letter.txt")) << "Dear printer, here are my strips.\n";
    const std::string out = " -o " + file("readings.csv");
    EXPECT_EQ(run(file("letter.txt") + out), int(Fault::data));
    EXPECT_THAT(said(), HasSubstr("holds no readings"));
    EXPECT_EQ(run(file("nothing.tif") + out), int(Fault::no_input));
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--steps 13" + out), int(Fault::data));
    EXPECT_EQ(run(file("scan.tif") + kKnown + out), int(Fault::data)) << "half-bleached, read as a whole";
    EXPECT_EQ(run(file("scan.tif") + " --halves" + out), int(Fault::usage));
    EXPECT_EQ(run(file("scan.tif") + " --wedge 0.05,0.15" + out), int(Fault::usage));
    EXPECT_EQ(run(file("scan.tif") + " --white 800,312,136,56=0.12" + out), int(Fault::usage));
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--halves --bleach 40 --filter 40" + out), int(Fault::data));
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--halves --bleach 40 --filter 1 --filter 2" + out),
              int(Fault::usage));
    EXPECT_FALSE(std::filesystem::exists(file("readings.csv")));
    EXPECT_EQ(run(file("scan.tif") + " -o " + file("scan.tif")), int(Fault::usage));
}

}  // namespace
}  // namespace fogproof
