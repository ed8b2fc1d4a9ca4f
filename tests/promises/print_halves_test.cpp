// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG --halves`, asked of the program on drawn scans of two halves whose place and
// tone curve are known, where one of them shows little but long lines, or much even ground.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "fogproof/pack/readings.hpp"
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
constexpr double kHalfToneRms = 0.02;
constexpr double kDensest = 1.6;

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
    /// Snow over the lower third, denser than all else and ever denser downwards.
    void let_it_snow() {
        const int from = negative_.height * 2 / 3;
        for (int y = from; y < negative_.height; ++y)
            for (int x = 0; x < negative_.width; ++x)
                density(x, y) = std::lerp(1.3, kDensest, double(y - from) / (negative_.height - from));
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

TEST_F(PrintHalves, EvenGroundIsReadUpToTheFramesEdge) {
    let_it_snow();
    ASSERT_EQ(read_halves(-1).size(), 2u);
    for (const auto& [strip, print] : {std::pair{"print-before", &left_}, {"print-bleached", &right_}}) {
        SCOPED_TRACE(strip);
        double densest = 0, squares = 0;
        int count = 0;
        for (const Reading& row : parse_readings(content_of(program_ / "rows.csv"), "rows.csv")) {
            if (row.strip != strip || !row.wedge_density) continue;
            densest = std::max(densest, *row.wedge_density);
            squares += std::pow(row.density - print->curve(*row.wedge_density), 2), ++count;
        }
        // All but the rim of the frame is read, and a row is the mean of its tone's neighbours.
        EXPECT_GT(densest, kDensest - 0.06);
        EXPECT_LE(std::sqrt(squares / std::max(count, 1)), kHalfToneRms);
    }
}

}  // namespace
}  // namespace fogproof::tests
