// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where `read PRINT --negative NEG` places prints that hold a frame badly: bare outlines, soft scans; and
// that it refuses a negative exposed from a little way aside. Asked of the program on drawn scans.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// What is promised of corners, in pixels of a scan.
constexpr double kCornersWithin = 0.75;

// Even cups on an even table: nothing but outlines, which look the same all along themselves.
DrawnNegative cups() {
    DrawnNegative negative(3);
    std::mt19937 random(8);
    std::uniform_real_distribution<double> unit(0, 1);
    struct Cup {
        double u, v, wide, high, dense;
    };
    std::vector<Cup> all;
    for (int row = 0; row < 4; ++row)
        for (int column = 0; column < 5; ++column)
            all.push_back({0.1 + 0.3 * column + 0.15 * (row % 2) + 0.06 * unit(random),
                           0.1 + 0.27 * row + 0.05 * unit(random), 0.11 + 0.02 * unit(random),
                           0.09 + 0.02 * unit(random), 0.9 + 0.3 * unit(random)});
    for (int y = 0; y < negative.height; ++y)
        for (int x = 0; x < negative.width; ++x) {
            const double u = (x + 0.5) / negative.height, v = (y + 0.5) / negative.height;
            double& density = negative.density[std::size_t(y) * std::size_t(negative.width) + std::size_t(x)];
            density = 0.3 + 0.05 * u;
            for (const Cup& cup : all) {
                const double away = std::hypot((u - cup.u) / cup.wide, (v - cup.v) / cup.high);
                density += (cup.dense - 0.5 * v) / (1 + std::exp((away - 1) * 45));
            }
        }
    return negative;
}

// The scene seen from a step aside: what is near moves more than what is far, by up to so many pixels.
DrawnNegative from_aside(const DrawnNegative& negative, double pixels) {
    DrawnNegative other = negative;
    for (int y = 0; y < other.height; ++y)
        for (int x = 0; x < other.width; ++x) {
            const double u = (x + 0.5) / other.width, v = (y + 0.5) / other.height;
            const double off = pixels * std::sin(9 * u + 2 * v) * std::cos(7 * v);
            other.density[std::size_t(y) * std::size_t(other.width) + std::size_t(x)] =
                negative.at(u + off / other.width, v);
        }
    return other;
}

class PrintPlacing : public ::testing::Test {
  protected:
    Program::Answer read(const DrawnNegative& shown, const DrawnNegative& held, const PrintScan& scan) {
        held.scanned().tiffsave((program_ / "neg.tif").c_str());
        scan.linear(shown).write_to_file((program_ / "print.tif").c_str());
        return program_.run(
            "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --json -o rows.csv");
    }
    static double worst_corner(const Program::Answer& answer, const DrawnPrint& print) {
        const auto corners = nlohmann::json::parse(answer.out)["corners"];
        double worst = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            const auto [x, y] = print.corners()[i];
            worst = std::max(worst, std::hypot(double(corners[i][0]) - x, double(corners[i][1]) - y));
        }
        return worst;
    }
    Program program_;
};

PrintScan print_on_scan(const DrawnPrint& print, double blur) {
    PrintScan scan;
    scan.prints = {print}, scan.blur = blur;
    return scan;
}

TEST_F(PrintPlacing, OfBareOutlinesIsNoOtherExposure) {
    DrawnPrint print;
    print.length = 700, print.degrees = 2;
    const auto answer = read(cups(), cups(), print_on_scan(print, 1.2));
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_LE(worst_corner(answer, print), kCornersWithin);
}

// A scanner blurs light. Taken as a blur of lightness, every outline of a dark thing would move inwards.
TEST_F(PrintPlacing, HoldsTheCornersOfASoftScan) {
    DrawnPrint print;
    print.length = 700, print.degrees = -1.5, print.lens = 0.002;
    const auto answer = read(cups(), cups(), print_on_scan(print, 3));
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_LE(worst_corner(answer, print), kCornersWithin);
}

TEST_F(PrintPlacing, RefusesTheSameSceneFromALittleWayAside) {
    const DrawnNegative negative(7);
    DrawnPrint print;
    print.degrees = 1;
    const auto answer = read(negative, from_aside(negative, 1.6), print_on_scan(print, 1));
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("another exposure of the same scene"));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

}  // namespace
}  // namespace fogproof::tests
