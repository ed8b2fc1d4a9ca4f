// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips drawn on a flatbed scan, read back.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <lcms2.h>
#include <sys/wait.h>
#include <array>
#include <fstream>
#include <functional>
#include <sstream>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/readings.hpp"
#include "reading/cgats.hpp"
#include "reading/strip_labels.hpp"
#include "reading/strip_reading.hpp"
#include "scan/reflection_scan.hpp"
#include "support/program.hpp"
#include "support/read_strips.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

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

}  // namespace
}  // namespace fogproof::tests
