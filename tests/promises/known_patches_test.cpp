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

}  // namespace
}  // namespace fogproof::tests
