// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Scans on which no strip can be read as it was told.
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

using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

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

}  // namespace
}  // namespace fogproof::tests
