// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG --tie`: points that somebody saw on both, for prints on which the program finds
// no place. Asked of the program on drawn scans whose place is known; no published source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// Of the scan: by so much points are told wrong, and so well a place is found all the same.
constexpr double kPointedAt = 3, kPlaced = 1.5;
// Farther askew than prints are looked for.
constexpr double kAskew = 20;
using Places = std::vector<std::array<double, 2>>;
const Places kFar{{0.15, 0.2}, {0.85, 0.25}, {0.3, 0.85}, {0.8, 0.8}};

class TiedPrint : public ::testing::Test {
  protected:
    TiedPrint() : negative_(7) { negative_.scanned().tiffsave((program_ / "neg.tif").c_str()); }

    void scan(const std::vector<DrawnPrint>& prints, const DrawnNegative& shown) {
        PrintScan scan{.width = 1100, .height = 940};
        scan.prints = prints;
        scan.linear(shown).write_to_file((program_ / "print.tif").c_str());
    }
    // Each off by a few pixels, one this way, the next that way.
    [[nodiscard]] std::string points(const std::string& option, const DrawnPrint& print,
                                     const Places& places) const {
        std::string words;
        double off = kPointedAt;
        for (const auto& [u, v] : places) {
            const auto [x, y] = print.on_scan(u, v);
            words += " " + option + " " + std::to_string(int(u * negative_.width)) + "," +
                     std::to_string(int(v * negative_.height)) + "=" + std::to_string(int(x + off)) + "," +
                     std::to_string(int(y - off));
            off = -off;
        }
        return words;
    }
    [[nodiscard]] Program::Answer read(const std::string& more) const {
        return program_.run(
            "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --encoding linear "
            "--json "
            "-o rows.csv " +
            more);
    }
    static void expect_at(const nlohmann::json& piece, const DrawnPrint& print) {
        const auto true_corners = print.corners();
        for (std::size_t i = 0; i < 4; ++i)
            for (std::size_t k = 0; k < 2; ++k)
                EXPECT_NEAR(double(piece["corners"][i][k]), true_corners[i][k], kPlaced) << i;
    }

    DrawnNegative negative_;
    Program program_;
};

DrawnPrint askew(bool is_mirrored) {
    DrawnPrint print;
    print.x = 550, print.y = 470, print.degrees = kAskew, print.mirrored = is_mirrored;
    return print;
}

TEST_F(TiedPrint, AWholePrintIsReadWhereItsPointsTell) {
    for (const bool is_mirrored : {false, true}) {
        const DrawnPrint print = askew(is_mirrored);
        scan({print}, negative_);
        EXPECT_EQ(read("").code, 65) << "found without";
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = read(points("--tie", print, kFar));
        ASSERT_EQ(answer.code, 0) << answer.err;
        expect_at(nlohmann::json::parse(answer.out)["prints"][0]["pieces"][0], print);
    }
}

TEST_F(TiedPrint, BothHalvesAreReadWhereTheirPointsTell) {
    DrawnPrint left = askew(false), right = askew(false);
    left.length = right.length = 500;
    left.x = 400, right.x = 620, left.y = 440, right.y = 500;
    left.last = right.first = 0.5;
    right.curve = bleached_curve;
    scan({left, right}, negative_);
    const std::string halves = "--halves --bleach 40 ";
    EXPECT_EQ(read(halves).code, 65) << "found without";
    const auto answer = read(halves + points("--tie", left, {{0.1, 0.2}, {0.4, 0.3}, {0.15, 0.85}}) +
                             points("--tie", right, {{0.6, 0.2}, {0.9, 0.3}, {0.65, 0.85}}));
    ASSERT_EQ(answer.code, 0) << answer.err;
    const auto pieces = nlohmann::json::parse(answer.out)["prints"][0]["pieces"];
    ASSERT_EQ(pieces.size(), 2u);
    expect_at(pieces[0], left);
    expect_at(pieces[1], right);
}

TEST_F(TiedPrint, AnotherPictureIsRefusedWhateverPointsAreTied) {
    const DrawnPrint print = askew(false);
    scan({print}, DrawnNegative(8));
    const auto answer = read(points("--tie", print, kFar));
    EXPECT_EQ(answer.code, 65);
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

TEST_F(TiedPrint, PointsThatContradictEachOtherAreRefused) {
    const DrawnPrint print = askew(false);
    scan({print}, negative_);
    const auto answer = read(points("--tie", print, kFar) + " --tie 360,240=100,100");
    EXPECT_EQ(answer.code, 64);
    EXPECT_THAT(answer.err, HasSubstr("--tie: the points contradict each other"));
    EXPECT_THAT(read(points("--tie", print, {kFar[0], kFar[1]})).err, HasSubstr("--tie: are 2 points"));
    EXPECT_THAT(read(points("--tie", print, {{0.5, 0.5}, {0.52, 0.5}, {0.5, 0.53}})).err,
                HasSubstr("too close together"));
}

}  // namespace
}  // namespace fogproof::tests
