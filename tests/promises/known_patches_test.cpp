// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A patch of known density that is told wrong puts a print where no print can be, as scans that are exchanged
// do.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;

TEST(KnownPatches, ThatMakeDensitiesNoPrintHasAreRefusedInOneLine) {
    const DrawnNegative negative(7);
    const Program program;
    negative.scanned().tiffsave((program / "neg.tif").c_str());
    PrintScan scan;
    scan.prints = {DrawnPrint{}};
    scan.patches = {{{30, 20, 90, 70}, 2.0}};
    scan.linear(negative).write_to_file((program / "print.tif").c_str());
    const auto answer = program.run(
        "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 "
        "--white 40,30,70,50=0.09 --quiet -o rows.csv");
    EXPECT_EQ(answer.code, 65) << answer.out;
    EXPECT_THAT(
        answer.err,
        AllOf(StartsWith("fogproof: print.tif: its tones lie at densities of -1."),
              HasSubstr("the scan of the print named first, that of its negative behind --negative")));
    EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1);
    EXPECT_FALSE(std::filesystem::exists(program / "rows.csv"));
}

// The scale of densities is the patch's alone: whites lie near full light on any scan (common practice of
// scanner programs, no source).
TEST(KnownPatches, ThatTheScanItselfContradictsAreNamed) {
    StripScan scan{.width = 900, .height = 400, .lid = 0.05};
    DrawnStrip strip;
    strip.x = 450, strip.y = 160, strip.length = 760, strip.width = 120;
    strip.densities = {1.7, 1.3, 0.9, 0.6, 0.4, 0.25, 0.16};
    scan.strips = {strip};
    scan.patches = {{{60, 290, 140, 80}, 0.09}, {{700, 290, 140, 80}, 0.74}};
    const Program program;
    scan.linear().tiffsave((program / "scan.tif").c_str());
    const auto said = [&](const std::string& known) {
        std::filesystem::remove(program / "rows.csv");
        const auto answer =
            program.run("read scan.tif --quiet --steps 7 --exposure 8 -o rows.csv --white " + known);
        return std::pair(answer.code, answer.err);
    };
    const std::string slip = "80,305,100,50=", card = "720,305,100,50=";
    for (const std::string& right : {slip + "0.09", slip + "0.06", card + "0.74"})
        EXPECT_EQ(said(right), std::pair(0, std::string())) << right;
    const auto [code, dark] = said(slip + "0.9");
    EXPECT_EQ(code, 0) << dark;
    EXPECT_THAT(dark, AllOf(HasSubstr("where scanners put white"), HasSubstr("(0.09 rather than 0.9?)")));
    // Too light for any row: refused, and the reason named before.
    EXPECT_THAT(said(card + "0.074").second,
                AllOf(HasSubstr("lighter than any paper"), HasSubstr("(0.74 rather than 0.074?)")));
    // The grey card's density told of the slip: another piece, not another density.
    EXPECT_THAT(said(slip + "grey-card").second, HasSubstr("check the density and the piece"));
}

}  // namespace
}  // namespace fogproof::tests
