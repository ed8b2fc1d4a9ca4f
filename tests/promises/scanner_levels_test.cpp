// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Programs of scanners set levels by themselves: the darkest place of a scan becomes black, the lightest
// white. All densities are then wrong, and only the blacks show it, since no paper is darker than about 2.3
// (common practice, no source).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

// Stretched until the darkest code is black and the lightest white. Levels that cut codes off besides make
// steps that are refused as clipped.
vips::VImage with_levels(const vips::VImage& codes) {
    const double black = codes.min(), white = codes.max();
    return ((codes - black) * (255 / (white - black))).cast(VIPS_FORMAT_UCHAR);
}

struct Said {
    int code;
    std::string warning;
};

Said said_to(const vips::VImage& codes, const std::string& known) {
    const Program program;
    codes.tiffsave((program / "scan.tif").c_str());
    const auto answer = program.run("read scan.tif --quiet --steps 7 --exposure 8 -o rows.csv " + known);
    return {answer.code, answer.err};
}

StripScan strip_and_slip(double black) {
    StripScan scan{.width = 900, .height = 400, .lid = 0.05, .noise = 0.001};
    DrawnStrip strip;
    strip.x = 450, strip.y = 160, strip.length = 760, strip.width = 120;
    strip.densities = {black, 1.3, 0.9, 0.6, 0.4, 0.25, 0.16};
    scan.strips = {strip};
    scan.patches = {{{60, 290, 140, 80}, 0.09}, {{700, 290, 140, 80}, 1.25}};
    return scan;
}

const std::string kSlip = "--white 80,305,100,50=0.09";

TEST(ScannerLevels, ThatMakeBlacksDarkerThanPaperAreNamed) {
    for (const double black : {1.55, 1.9}) {
        const vips::VImage codes = strip_and_slip(black).srgb();
        EXPECT_THAT(
            said_to(with_levels(codes), kSlip).warning,
            HasSubstr("darker than any paper (about 2.3): the scanner's program has probably altered"));
    }
}

TEST(ScannerLevels, ThatAreNotAlteredAreLeftAlone) {
    for (const double black : {1.55, 2.2}) {
        const StripScan scan = strip_and_slip(black);
        for (const vips::VImage& codes : {scan.srgb(), scan.linear()}) {
            const Said said = said_to(codes, kSlip);
            EXPECT_EQ(said.code, 0);
            EXPECT_EQ(said.warning, "");
        }
    }
}

// Black card is the darkest of a scan on which it lies, and then shows that it was made darker; an open lid
// is.
TEST(ScannerLevels, AreAskedAboutWhereTheGroundIsDarkerThanCard) {
    StripScan scan = strip_and_slip(1.5);
    scan.lid = 1.7;
    const Program program;
    const auto told = [&](const vips::VImage& codes) {
        codes.tiffsave((program / "scan.tif").c_str());
        return program.run("read scan.tif --steps 7 --exposure 8 -o rows.csv " + kSlip).err;
    };
    EXPECT_THAT(told(scan.srgb()), Not(HasSubstr("automatic levels")));
    EXPECT_THAT(told(with_levels(scan.srgb())), HasSubstr("if a card or a closed lid lay there"));
}

TEST(ScannerLevels, AreNamedByTheStepsOnBlackCard) {
    StripScan scan = strip_and_slip(1.6);
    scan.lid = 1.5;
    EXPECT_THAT(said_to(scan.srgb(), kSlip).warning, Not(HasSubstr("darker than any paper")));
    const std::string warning = said_to(with_levels(scan.srgb()), kSlip).warning;
    EXPECT_THAT(warning, HasSubstr("darker than any paper (about 2.3): the scanner's program"));
}

// A scan cut to the print shows no lid.
TEST(ScannerLevels, AreNamedOnAScanThatHoldsThePrintAlone) {
    const DrawnNegative negative(7);
    PrintScan scan{.noise = 0.0005, .dust = 0};
    scan.prints = {DrawnPrint{}};
    const vips::VImage print = scan.srgb(negative).extract_area(130, 150, 640, 440);
    const Program program;
    negative.scanned().tiffsave((program / "neg.tif").c_str());
    const auto warning = [&](const vips::VImage& codes) {
        codes.tiffsave((program / "print.tif").c_str());
        const auto answer = program.run(
            "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --quiet -o rows.csv");
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.err;
    };
    EXPECT_EQ(warning(print), "");
    EXPECT_THAT(warning(with_levels(print)), HasSubstr("darker than any paper"));
}

// Known patches, one light and one dark, make the ends right and leave the middle wrong.
TEST(ScannerLevels, AreNamedWhereTwoPatchesAreKnown) {
    const vips::VImage codes = strip_and_slip(1.6).srgb();
    const std::string both = kSlip + " --dark 720,305,100,50=1.25";
    EXPECT_EQ(said_to(codes, both).warning, "");
    EXPECT_THAT(said_to(with_levels(codes), both).warning,
                HasSubstr("the scanner's program altered the tones (automatic levels)"));
}

}  // namespace
}  // namespace fogproof::tests
