// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG --halves`, asked of the program on drawn scans of two halves whose place and
// tone curve are known, where one of them shows little but long lines.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

constexpr char kReadPrintHalves[] =
    "read print.tif --negative neg.tif --halves --bleach 40 --whole --clear 1 --callier 1 --flare 0 "
    "--white 40,30,70,50=0.09 --json -o rows.csv";
// Pixels of a scan on which a half is 280 wide: along long lines a place is held by their ends alone.
constexpr double kAlongLines = 4;

class PrintHalves : public ::testing::Test {
  protected:
    double& density(int x, int y) {
        return negative_.density[std::size_t(y) * std::size_t(negative_.width) + std::size_t(x)];
    }

    /// Rails that run nearly level over the right half, and nothing else.
    void lay_rails() {
        for (int y = 0; y < negative_.height; ++y)
            for (int x = negative_.width / 2 - 20; x < negative_.width; ++x) {
                const double down = y + 0.04 * (x - negative_.width / 2.0) * (y - 200) / 200.0;
                double here = 0.5 + 0.0006 * down;
                for (const auto& [at, wide, denser] :
                     {std::array{60.0, 6.0, 0.3}, {150.0, 9.0, -0.3}, {180.0, 9.0, 0.5}, {330.0, 12.0, 0.4}})
                    here += denser * std::exp(-std::pow((down - at) / wide, 2));
                density(x, y) = here;
            }
    }

    /// The left half as it was developed, the right one bleached and turned by so much.
    nlohmann::json read_halves(double degrees) {
        left_.last = right_.first = 0.5;
        left_.x = 440, left_.y = 320, right_.x = 500, right_.y = 340;
        left_.length = right_.length = 560;
        right_.degrees = degrees;
        right_.curve = bleached_curve, right_.border_density = bleached_curve(9);
        negative_.scanned().tiffsave((program_ / "neg.tif").c_str());
        PrintScan scan;
        scan.prints = {left_, right_};
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        scan.linear(negative_).write_to_file((program_ / "print.tif").c_str());
        const auto answer = program_.run(kReadPrintHalves);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.code == 0 ? nlohmann::json::parse(answer.out)["prints"][0]["pieces"] : nlohmann::json();
    }

    DrawnNegative negative_{7, 0.1, 1.2};
    DrawnPrint left_, right_;
    Program program_;
};

TEST_F(PrintHalves, AHalfOfLongLinesLiesWhereTheyEnd) {
    lay_rails();
    for (const double degrees : {1.5, -1.4}) {
        SCOPED_TRACE(degrees);
        std::filesystem::remove(program_ / "rows.csv");
        const auto pieces = read_halves(degrees);
        ASSERT_EQ(pieces.size(), 2u);
        const auto truth = right_.corners();
        for (const std::size_t i : {1u, 2u}) {
            EXPECT_NEAR(double(pieces[1]["corners"][i][0]), truth[i][0], kAlongLines);
            EXPECT_NEAR(double(pieces[1]["corners"][i][1]), truth[i][1], kAlongLines);
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
