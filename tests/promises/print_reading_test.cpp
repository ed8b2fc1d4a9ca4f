// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG`, asked of the program on drawn scans of prints whose place, tone curve and
// falloff are known.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>
#include <random>
#include <utility>
#include <vector>

#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

// What is promised of corners, in pixels of a scan, and of tones, rms; a corner may err more than the rest.
constexpr double kCornerPixels = 0.75, kToneRms = 0.02;
const std::string kFilmOfPrint = " --whole --clear 1 --callier 1 --flare 0 ";

class PrintReading : public ::testing::Test {
  protected:
    PrintReading() : negative_(7) { negative_.scanned().tiffsave((program_ / "neg.tif").c_str()); }

    void save(const DrawnPrint& print, const std::string& name = "print.tif") {
        PrintScan scan;
        scan.prints = {print};
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        save(scan, name);
    }
    void save_small(const DrawnPrint& print) {
        PrintScan scan{.width = 620, .height = 540};
        scan.prints = {print};
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        save(scan, "print.tif");
    }
    void save(const PrintScan& scan, const std::string& name) {
        (name.ends_with("jpg") ? scan.srgb(negative_) : scan.linear(negative_))
            .write_to_file((program_ / name).c_str());
    }
    nlohmann::json read(const std::string& words) {
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = program_.run("read " + words + " --white 40,30,70,50=0.09 --json -o rows.csv");
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        said_ = answer.err;
        return answer.code == 0 ? nlohmann::json::parse(answer.out) : nlohmann::json();
    }
    std::vector<Reading> rows() const {
        return parse_readings(content_of(program_ / "rows.csv"), "rows.csv");
    }

    /// The negative becomes a wall of bricks, each of one tone but for how rough they are, D, over so many
    /// pixels.
    void build_wall(double roughness, double wave) {
        const auto rough = [&](int at) { return std::sin(2 * std::numbers::pi * at / wave); };
        std::mt19937 random(3);
        std::uniform_real_distribution<double> tone(0.35, 1.2);
        std::vector<double> bricks(500);
        for (double& brick : bricks) brick = tone(random);
        for (int y = 0; y < negative_.height; ++y)
            for (int x = 0; x < negative_.width; ++x) {
                const int course = y / 32, across = x + course % 2 * 30, brick = across / 60;
                const bool is_joint = y % 32 < 4 || across % 60 < 4;
                negative_.density[std::size_t(y) * std::size_t(negative_.width) + std::size_t(x)] =
                    (is_joint ? 0.15 : bricks[std::size_t(30 * course + brick)]) +
                    roughness * (rough(x) + rough(y));
            }
        negative_.scanned().tiffsave((program_ / "wall.tif").c_str());
    }

    static double worst_corner(const nlohmann::json& corners, const DrawnPrint& print,
                               const std::vector<std::size_t>& which = {0, 1, 2, 3}) {
        double worst = 0;
        const auto truth = print.corners();
        for (const std::size_t i : which)
            worst = std::max(
                worst, std::hypot(double(corners[i][0]) - truth[i][0], double(corners[i][1]) - truth[i][1]));
        return worst;
    }
    /// Rms of exposed rows of a strip against the curve that the print was drawn with.
    static double off_curve(const std::vector<Reading>& rows, const std::function<double(double)>& curve,
                            const std::string& strip) {
        double sum = 0;
        int count = 0;
        for (const Reading& row : rows)
            if (row.strip == strip && row.wedge_density)
                sum += std::pow(row.density - curve(*row.wedge_density), 2), ++count;
        EXPECT_GE(count, 10) << strip;
        EXPECT_LE(count, 40) << strip;
        return std::sqrt(sum / std::max(count, 1));
    }
    static double border(const std::vector<Reading>& rows, const std::string& strip) {
        for (const Reading& row : rows)
            if (row.strip == strip && row.exposure_s == 0) return row.density;
        return -1;
    }

    /// The two prints of the scan are halves, the right one bleached. Corners that are on the paper count;
    /// the others lie half a frame away from all that is seen.
    void expect_halves_placed(PrintScan scan) {
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        save(scan, "test.tif");
        const auto told =
            read("test.tif --negative neg.tif --halves --bleach 40 --exposure 12 --filter 2" + kFilmOfPrint);
        ASSERT_FALSE(told.is_null());
        const auto& pieces = told["prints"][0]["pieces"];
        ASSERT_EQ(pieces.size(), 2u);
        EXPECT_LE(worst_corner(told["corners"], scan.prints[0], {0, 3}), kCornerPixels);
        EXPECT_LE(worst_corner(pieces[1]["corners"], scan.prints[1], {1, 2}), kCornerPixels);
    }

    DrawnNegative negative_;
    Program program_;
    std::string said_;
};

TEST_F(PrintReading, IsPlacedAndReadInAnyTurnThroughTaperLensFalloffAndDust) {
    const double askew[] = {1.5, -3, 4.5, 0.4};
    for (int turn = 0; turn < 4; ++turn) {
        SCOPED_TRACE(turn);
        DrawnPrint print;
        print.degrees = 90 * turn + askew[turn];
        print.taper = 0.01 * (turn - 1), print.lens = 0.004 * (1 - turn), print.falloff_stops = 0.1;
        const std::string name = turn == 2 ? "print.jpg" : "print.tif";
        save(print, name);
        const auto told = read(name + " --negative neg.tif" + kFilmOfPrint);
        if (told.is_null()) continue;
        EXPECT_LE(worst_corner(told["corners"], print), kCornerPixels);
        EXPECT_LE(off_curve(rows(), print.curve, "print"), kToneRms);
        EXPECT_NEAR(double(told["prints"][0]["pieces"][0]["falloff_stops"]), 0.1, 0.05);
        EXPECT_NEAR(border(rows(), "print"), print.border_density, kToneRms);
        EXPECT_FALSE(told["prints"][0]["pieces"][0]["mirrored"]);
    }
}

TEST_F(PrintReading, OfARoughWallHasTheTonesOfItsBricks) {
    // No ground is quite even: every brick is rough by 0.05 D over a few pixels.
    build_wall(0.052, 9);
    PrintScan scan{.blur = 0.6};
    scan.prints = {DrawnPrint{.degrees = 2}};
    scan.patches = {{{30, 20, 90, 70}, 0.09}};
    save(scan, "print.tif");
    const auto told = read("print.tif --negative wall.tif" + kFilmOfPrint);
    ASSERT_FALSE(told.is_null());
    EXPECT_LE(worst_corner(told["corners"], scan.prints[0]), kCornerPixels);
    EXPECT_LE(off_curve(rows(), scan.prints[0].curve, "print"), kToneRms);
}

TEST_F(PrintReading, OfStonesFinerThanTheScanIsRefused) {
    // The scan evens them out in light, which is not the light of their mean density. 8 bit tell no grain.
    build_wall(0.15, 3), save(DrawnPrint{.degrees = 2});
    (negative_.scanned() / 257).cast(VIPS_FORMAT_UCHAR).tiffsave((program_ / "wall.tif").c_str());
    const auto answer = program_.run(
        "read print.tif --negative wall.tif --negative-encoding linear -o rows.csv" + kFilmOfPrint);
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("too few even areas"));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

TEST_F(PrintReading, OfAMirroredPrintIsToldAndMirrorTurnsTheNegative) {
    DrawnPrint print;
    print.mirrored = true, print.degrees = 2;
    save(print);
    const auto told = read("print.tif --negative neg.tif" + kFilmOfPrint);
    ASSERT_FALSE(told.is_null());
    EXPECT_TRUE(told["prints"][0]["pieces"][0]["mirrored"]);
    EXPECT_LE(worst_corner(told["corners"], print), kCornerPixels);
    EXPECT_LE(off_curve(rows(), print.curve, "print"), kToneRms);
    EXPECT_THAT(said_, AllOf(HasSubstr("mirror images"), HasSubstr("--mirror")));
    const auto turned = read("print.tif --negative neg.tif --mirror" + kFilmOfPrint);
    ASSERT_FALSE(turned.is_null());
    EXPECT_FALSE(turned["prints"][0]["pieces"][0]["mirrored"]);
    EXPECT_LE(off_curve(rows(), print.curve, "print"), kToneRms);
}

TEST_F(PrintReading, OfAnotherNegativeIsRefusedAndNothingIsWritten) {
    DrawnPrint print;
    print.degrees = -2;
    save(print);
    for (const unsigned seed : {8u, 9u}) {
        DrawnNegative(seed).scanned().tiffsave((program_ / "wrong.tif").c_str());
        const auto answer =
            program_.run("read print.tif --negative wrong.tif --picture seen.png -o rows.csv" + kFilmOfPrint);
        EXPECT_EQ(answer.code, 65) << answer.out;
        EXPECT_THAT(answer.err, HasSubstr("print.tif: "));
        EXPECT_EQ(answer.out, "");
        for (const char* name : {"rows.csv", "seen.png"})
            EXPECT_FALSE(std::filesystem::exists(program_ / name)) << name;
    }
}

// A print cut in two, its right half bleached, as if of so many pixels across both.
std::pair<DrawnPrint, DrawnPrint> halves(double length) {
    DrawnPrint before, bleached;
    before.length = bleached.length = length;
    before.last = bleached.first = 0.5;
    before.degrees = 1.5, bleached.degrees = -1;
    bleached.curve = bleached_curve, bleached.border_density = bleached_curve(9);
    return {before, bleached};
}

TEST_F(PrintReading, OfHalvesSideBySideGivesBothTheirNamesAndCurves) {
    auto [before, bleached] = halves(560);
    before.x = 440, before.y = 320;
    bleached.x = 500, bleached.y = 340;
    expect_halves_placed({.prints = {before, bleached}});
    const auto read = rows();
    EXPECT_LE(off_curve(read, before.curve, "test-before"), kToneRms);
    EXPECT_LE(off_curve(read, bleached.curve, "test-bleached"), kToneRms);
    EXPECT_NEAR(border(read, "test-before"), before.border_density, kToneRms);
    EXPECT_NEAR(border(read, "test-bleached"), bleached.border_density, kToneRms);
    for (const Reading& row : read) {
        EXPECT_EQ(row.bleach_s, row.strip == "test-before" ? 0 : 40);
        EXPECT_TRUE(row.exposure_s == 12 || !row.wedge_density);
    }
}

// Most of the glass is empty, and the scan is a little larger than what a search looks at.
TEST_F(PrintReading, OfSmallHalvesOnALargeScanGivesBoth) {
    auto [before, bleached] = halves(300);
    before.x = 600, before.y = 500;
    bleached.x = 640, bleached.y = 510;
    expect_halves_placed({.width = 1600, .height = 1200, .prints = {before, bleached}});
}

TEST_F(PrintReading, OfOneHalfAloneIsRefusedInOneLineThatNamesTheFileOnce) {
    auto [before, bleached] = halves(560);
    before.x = 440, before.y = 320;
    PrintScan scan{.prints = {before}};
    scan.patches = {{{30, 20, 90, 70}, 0.09}};
    save(scan, "half.tif");
    const auto answer = program_.run(
        "read half.tif --negative neg.tif --halves --bleach 40 --exposure 12 --filter 2 --quiet "
        "-o rows.csv" +
        kFilmOfPrint);
    EXPECT_EQ(answer.code, 65) << answer.out;
    EXPECT_THAT(answer.err, testing::StartsWith("fogproof: half.tif, the other half: "));
    EXPECT_EQ(answer.err.rfind("half.tif"), answer.err.find("half.tif"));
    EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1);
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

TEST_F(PrintReading, IsDrawnIntoAPictureAndItsRowsAreFitted) {
    save(DrawnPrint{});
    const auto told =
        read("print.tif --negative neg.tif --exposure 10 --filter 2 --develop 90 --picture seen.png" +
             kFilmOfPrint);
    ASSERT_FALSE(told.is_null());
    const vips::VImage seen = vips::VImage::new_from_file((program_ / "seen.png").c_str());
    EXPECT_GT(seen.width(), 200);
    EXPECT_EQ(program_.run("pack new --white 0.1 --blank 0.3 -o pack.toml").code, 0);
    const auto fit = program_.run("pack fit rows.csv --pack pack.toml -o new.toml --json");
    EXPECT_EQ(fit.code, 0) << fit.err;
}

// Whoever says how the negative is to be taken moves what lay over the paper, never what the print holds.
class PrintReadingOptions : public PrintReading {
  protected:
    PrintReadingOptions() {
        print_.length = 420, print_.x = 320, print_.y = 290, print_.degrees = 1;
        save_small(print_);
        plain_ = densest_over("neg.tif" + kFilmOfPrint);
    }
    double densest_over(const std::string& options) {
        const auto told = read("print.tif --negative " + options);
        if (told.is_null()) return -1.0;
        EXPECT_LE(worst_corner(told["corners"], print_), kCornerPixels) << options;
        return told["prints"][0]["pieces"][0]["tones"].back()["wedge_density"];
    }
    DrawnPrint print_;
    double plain_ = 0;
};

TEST_F(PrintReadingOptions, OfTheEnlargerMoveWhatLayOverThePaper) {
    EXPECT_GT(densest_over("neg.tif --whole --clear 1 --callier 1.3 --flare 0"), 1.2 * plain_);
    const auto through_condenser = [this](double over_paper) { return print_.curve(over_paper / 1.3); };
    EXPECT_LE(off_curve(rows(), through_condenser, "print"), kToneRms);
    EXPECT_GT(densest_over("neg.tif --whole --clear 1 --head condenser --flare 0"), 1.1 * plain_);
    // Flare f over a mean light m leaves (1 - f) T + f m of a transmittance T.
    EXPECT_LT(densest_over("neg.tif --whole --clear 1 --callier 1 --flare 0.05"), plain_ - 0.05);
}

TEST_F(PrintReadingOptions, OfTheFilmSayWhereItsDensityBegins) {
    EXPECT_NEAR(densest_over("neg.tif --whole --clear 0.8 --callier 1 --flare 0"), plain_ + std::log10(0.8),
                kToneRms);
    EXPECT_NEAR(densest_over("neg.tif --base-fog 0.2" + kFilmOfPrint), plain_, kToneRms);
    const auto read = rows();
    for (const Reading& row : read) EXPECT_TRUE(!row.wedge_density || row.carrier_density == 0.2);
    for (const Reading& row : read)
        EXPECT_EQ(row.callier, row.wedge_density ? std::optional(1.0) : std::nullopt);
}

TEST_F(PrintReadingOptions, OfTheNegativesScanSayWhatItsCodesStandFor) {
    negative_.scanned<std::uint16_t>(1, [](double light, int) { return 65535 * std::pow(light, 1 / 2.2); })
        .tiffsave((program_ / "gamma.tif").c_str());
    EXPECT_NEAR(densest_over("gamma.tif --negative-encoding gamma22" + kFilmOfPrint), plain_, kToneRms);
    // A red that lets all light pass counts in luminance only.
    negative_
        .scanned<std::uint16_t>(3, [](double light, int band) { return 65535 * (band == 0 ? 1 : light); })
        .tiffsave((program_ / "red.tif").c_str());
    EXPECT_NEAR(densest_over("red.tif --channels blue-green" + kFilmOfPrint), plain_, kToneRms);
    EXPECT_LT(densest_over("red.tif --channels luminance" + kFilmOfPrint), plain_ - 0.2);
    negative_.scanned<std::uint16_t>(1, [](double light, int) { return 65535 * 0.03 / light; })
        .tiffsave((program_ / "scene.tif").c_str());
    EXPECT_GT(densest_over("scene.tif --as positive --whole"), 0.5);
}

}  // namespace
}  // namespace fogproof::tests
