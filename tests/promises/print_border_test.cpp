// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The unexposed border of a scanned print gives fog for free, be it narrow and dusty.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

// What is promised of tones, D.
constexpr double kFogReadTo = 0.02;

TEST(PrintBorder, OfAFewPixelsUnderDustIsRead) {
    const DrawnNegative negative(7);
    const Program program;
    negative.scanned().tiffsave((program / "neg.tif").c_str());
    DrawnPrint print;
    print.degrees = 2, print.border = 0.013;  // 8 pixels of 600
    PrintScan scan;
    scan.lid = 1.3, scan.dust = 300;
    scan.prints = {print};
    scan.patches = {{{30, 20, 90, 70}, 0.09}};
    scan.linear(negative).write_to_file((program / "print.tif").c_str());
    const auto answer = program.run(
        "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 "
        "--white 40,30,70,50=0.09 --json -o rows.csv");
    ASSERT_EQ(answer.code, 0) << answer.err;
    const auto border = nlohmann::json::parse(answer.out)["prints"][0]["pieces"][0]["border_density"];
    ASSERT_FALSE(border.is_null()) << answer.err;
    EXPECT_NEAR(double(border), print.border_density, kFogReadTo);
}

}  // namespace
}  // namespace fogproof::tests
