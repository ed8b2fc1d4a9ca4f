// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Slips, strips and prints of different kinds on one flatbed scan: numbered, named by their numbers, labelled
// in a file. Asked of the program on drawn scans whose densities are known.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "base/words.hpp"
#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

// What a flatbed is good to beside a patch of known density (assumed).
constexpr double kReadTo = 0.03;

// Black card behind: 1 a slip only fixed, 2 a developed blank, 3 a test strip, 4 a strip under a wedge.
StripScan mixed() {
    StripScan scan{.width = 1000, .height = 760, .lid = 1.35};
    scan.dust = 15, scan.noise = 0.002, scan.seed = 6, scan.fall_off = 0;
    scan.patches = {{{70, 50, 180, 110}, 0.09}, {{420, 60, 160, 90}, 0.40}};
    DrawnStrip test;
    test.x = 480, test.y = 330, test.length = 700, test.width = 120, test.degrees = 2;
    test.densities = {1.05, 0.8, 0.6, 0.45, 0.3, 0.2};
    DrawnStrip wedge = test;
    wedge.y = 590, wedge.degrees = -1.5;
    wedge.densities = printed_wedge(7, 0.3, 0.25, 1.1, 3, 0.9);
    scan.strips = {test, wedge};
    return scan;
}

class ReadPieces : public ::testing::Test {
  protected:
    void SetUp() override { mixed().linear().tiffsave((program_ / "bed.tif").c_str()); }

    std::string said_by(const std::string& words) {
        const auto answer = program_.run("read " + words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        return answer.out;
    }
    /// Rows by their strips.
    std::map<std::string, std::vector<Reading>> rows(const std::string& words) {
        std::filesystem::remove(program_ / "rows.csv");
        said_by(words + " -o rows.csv");
        std::map<std::string, std::vector<Reading>> by_strip;
        if (std::filesystem::exists(program_ / "rows.csv"))
            for (const auto& row : parse_readings(content_of(program_ / "rows.csv"), "rows.csv"))
                by_strip[row.strip].push_back(row);
        return by_strip;
    }
    /// The file of labels as --labels-out writes it, with cells filled in: {piece, column, text}.
    void fill_in(const std::vector<std::array<std::string, 3>>& cells) {
        std::filesystem::remove(program_ / "labels.csv");
        said_by("bed.tif --labels-out labels.csv");
        std::istringstream lines(content_of(program_ / "labels.csv"));
        std::vector<std::string> names;
        std::string text;
        for (std::string line; std::getline(lines, line);) {
            auto row = split(line, ',');
            if (!line.starts_with("#") && names.empty())
                names = row;
            else if (!line.starts_with("#"))
                for (const auto& [piece, column, cell] : cells)
                    if (row.front() == piece)
                        row.at(std::size_t(std::ranges::find(names, column) - names.begin())) = cell;
            for (std::size_t i = 0; i < row.size(); ++i) text += (i > 0 ? "," : "") + row[i];
            text += "\n";
        }
        program_.write("labels.csv", text);
    }
    Program program_;
};

TEST_F(ReadPieces, KnownNamesAPieceByItsNumber) {
    const auto by_place = rows("bed.tif --white 90,70,140,70=0.09 --steps 1 --leave-out");
    const auto by_number = rows("bed.tif --known 1=0.09 --steps 1 --leave-out");
    ASSERT_EQ(by_number.size(), 1U) << "the known piece is none to be read";
    EXPECT_NEAR(by_number.begin()->second[0].density, 0.40, kReadTo);
    EXPECT_NEAR(by_place.begin()->second[0].density, by_number.begin()->second[0].density, 0.005);
    EXPECT_EQ(program_.run("read bed.tif --known 5=0.09 -o no.csv").code, 65);
}

TEST_F(ReadPieces, LabelsOutTellsEveryPieceAndItsKind) {
    const auto seen =
        nlohmann::json::parse(said_by("bed.tif --labels-out labels.csv --picture seen.png --json"));
    ASSERT_THAT(seen["pieces"], SizeIs(4));
    EXPECT_EQ(seen["pieces"][0]["kind"], "patch");
    EXPECT_EQ(seen["pieces"][2]["kind"], "strip");
    EXPECT_EQ(seen["pieces"][2]["steps"], 6);
    EXPECT_EQ(seen["pieces"][3]["steps"], 7);
    const auto place = seen["pieces"][1]["place"];
    const double truth[] = {420, 60, 160, 90};
    for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(double(place[i]), truth[i], 8) << i;
    EXPECT_TRUE(std::filesystem::exists(program_ / "seen.png"));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
    EXPECT_EQ(program_.run("read bed.tif --labels-out labels.csv").code, 73) << "only --force replaces it";
}

TEST_F(ReadPieces, LabelsGiveEachPieceItsOwnTreatment) {
    fill_in({{"1", "known", "0.09"},
             {"2", "strip", "blank"},
             {"2", "exposure_s", "0"},
             {"2", "develop_s", "75"},
             {"3", "strip", "test"},
             {"3", "exposures", "2 4 8 16 32 64"},
             {"3", "filter", "00"},
             {"4", "strip", "wedge"},
             {"4", "wedge", "0.05 0.3 7"},
             {"4", "bleach_s", "40"}});
    const auto read = rows("bed.tif --labels labels.csv --restrainer 20");
    ASSERT_EQ(read.size(), 3U);
    ASSERT_THAT(read.at("blank"), SizeIs(1));
    EXPECT_NEAR(read.at("blank")[0].density, 0.40, kReadTo);
    EXPECT_EQ(read.at("blank")[0].develop_s, 75);
    ASSERT_THAT(read.at("test"), SizeIs(6));
    EXPECT_EQ(read.at("test").front().exposure_s, 64);
    EXPECT_EQ(read.at("test").front().filter, -1) << "00 stands as -1 in readings";
    EXPECT_NEAR(read.at("test").front().density, 1.05, 0.05);
    ASSERT_THAT(read.at("wedge"), SizeIs(7));
    EXPECT_EQ(read.at("wedge").back().bleach_s, 40);
    EXPECT_NEAR(read.at("wedge").back().wedge_density.value(), 1.85, 1e-9);
    for (const auto& [strip, of_strip] : read)
        EXPECT_EQ(of_strip[0].restrainer_ml_l, 20) << "what is typed goes to all of them";
    // Skipped pieces and pieces without a line are left aside.
    fill_in({{"1", "known", "0.09"}, {"2", "strip", "blank"}, {"3", "kind", "skip"}, {"4", "kind", "skip"}});
    EXPECT_EQ(rows("bed.tif --labels labels.csv").size(), 1U);
}

TEST_F(ReadPieces, LabelsOfAnotherScanAreRefused) {
    fill_in({{"1", "known", "0.09"}});
    StripScan moved = mixed();
    moved.patches.push_back({{70, 200, 60, 60}, 0.2});
    moved.strips[0].y += 30;
    moved.linear().tiffsave((program_ / "bed.tif").c_str());
    const auto answer = program_.run("read bed.tif --labels labels.csv -o rows.csv");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, HasSubstr("lies at"));
    EXPECT_THAT(answer.err, HasSubstr("labels of this scan"));
    EXPECT_FALSE(std::filesystem::exists(program_ / "rows.csv"));
}

// Common practice, no source: slips only fixed read 0.06 to 0.11, a grey card reflects 18 %.
TEST_F(ReadPieces, AFixedSlipOfUnknownDensityIsAsDoubtfulAsItIs) {
    const auto told = rows("bed.tif --known 1=0.09 --steps 1 --leave-out").begin()->second[0],
               usual = rows("bed.tif --known 1=fixed --steps 1 --leave-out").begin()->second[0];
    EXPECT_NEAR(usual.density, told.density - 0.005, 0.002) << "0.085 stands for 0.06 to 0.11";
    EXPECT_EQ(told.common_error, 0.02);
    EXPECT_NEAR(*usual.common_error, std::hypot(0.02, 0.0125), 0.001);
    EXPECT_THAT(program_.run("read bed.tif --known 1=fixed --steps 1 --leave-out -o more.csv").err,
                HasSubstr("fixed is taken as density 0.06 to 0.11 (assumed)"));
}

TEST_F(ReadPieces, AGreyCardAndFreshWhiteAreReferencesToo) {
    StripScan scan = mixed();
    scan.patches.push_back({{700, 50, 200, 120}, 0.745});
    scan.patches[0].density = 0.07;
    scan.stray = 0.012;  // an old scanner's haze
    scan.linear().tiffsave((program_ / "card.tif").c_str());
    const auto read = [&](const std::string& known) {
        std::filesystem::remove(program_ / "labels.csv");
        said_by("card.tif --labels-out labels.csv");
        return rows("card.tif --steps 6 --leave-out --frame 0,200,1000,250 --white " + known);
    };
    const double
        by_white = read("90,70,140,70=fresh-white").begin()->second[0].density,
        by_both = read("90,70,140,70=fresh-white --dark 720,70,160,80=grey-card").begin()->second[0].density;
    EXPECT_LT(by_white, 1.05 - kReadTo);
    EXPECT_GT(by_both, by_white + 0.01) << "the card tells a part of the haze";
    const auto row = read("90,70,140,70=fresh-white").begin()->second[0];
    EXPECT_NEAR(*row.common_error, std::hypot(0.02, 0.015), 0.001);
}

// A grey card that is not one, or codes that are not what they are taken for.
TEST_F(ReadPieces, AKnownPatchOffTheScaleOfTheOthersIsTold) {
    StripScan scan = mixed();
    scan.patches.push_back({{700, 50, 200, 120}, 1.0});
    scan.linear().tiffsave((program_ / "card.tif").c_str());
    const std::string words =
        "read card.tif --steps 6 --leave-out --frame 0,200,1000,250 --white "
        "90,70,140,70=0.09 --dark 720,70,160,80=grey-card -o rows.csv";
    EXPECT_THAT(program_.run(words).err, HasSubstr("known patch grey-card 0.74 reads"));
    scan.patches.back().density = 0.745;
    scan.linear().tiffsave((program_ / "card.tif").c_str());
    std::filesystem::remove(program_ / "rows.csv");
    EXPECT_THAT(program_.run(words).err, Not(HasSubstr("on the scale through all of them")));
}

TEST_F(ReadPieces, EightBitsAreMoreDoubtfulInTheDarks) {
    mixed().srgb().write_to_file((program_ / "bed.jpg").c_str());
    const std::string frame = " --steps 6 --frame 0,200,1000,250 --white 90,70,140,70=0.09";
    const auto fine = rows("bed.tif" + frame).begin()->second[0],
               coarse = rows("bed.jpg" + frame).begin()->second[0];
    EXPECT_NEAR(coarse.density, fine.density, kReadTo);
    EXPECT_GT(*coarse.dark_error, *fine.dark_error + 0.01);
    EXPECT_EQ(coarse.common_error, fine.common_error);
}

// The lamp of an askew lid falls off over a black card, which does not show it.
TEST_F(ReadPieces, ThreeKnownPiecesShowHowTheLightFallsOff) {
    StripScan scan = mixed();
    scan.strips.clear();
    scan.fall_off = 0.12;
    scan.patches = {{{60, 50, 120, 90}, 0.09}, {{800, 60, 120, 90}, 0.30}, {{70, 600, 120, 90}, 0.20}};
    scan.patches.push_back({{800, 600, 120, 90}, 0.50});
    scan.linear().tiffsave((program_ / "bed.tif").c_str());
    const double by_one = rows("bed.tif --steps 1 --known 1=0.09 --strip a").at("a-3")[0].density,
                 by_three = rows("bed.tif --steps 1 --known 1=0.09 --known 2=0.3 --known 3=0.2 --strip a")
                                .at("a")[0]
                                .density;
    EXPECT_GT(std::abs(by_one - 0.5), 0.03);
    EXPECT_NEAR(by_three, 0.5, 0.01);
}

// Thick paper throws a shadow along the edges away from the lamp.
TEST_F(ReadPieces, AWhiteSlipOnAWhiteLidIsFoundByItsEdges) {
    StripScan scan = mixed();
    scan.lid = 0.085, scan.fall_off = 0.06;
    scan.patches = {{{72, 52, 180, 112}, 0.15}, {{70, 50, 180, 112}, 0.09}, {{420, 60, 160, 90}, 0.40}};
    scan.linear().tiffsave((program_ / "bed.tif").c_str());
    const auto seen = nlohmann::json::parse(said_by("bed.tif --labels-out labels.csv --json"));
    ASSERT_THAT(seen["pieces"], SizeIs(4));
    EXPECT_NEAR(double(seen["pieces"][0]["place"][0]), 70, 8);
    EXPECT_NEAR(double(seen["pieces"][0]["place"][2]), 182, 12);
    EXPECT_NEAR(rows("bed.tif --known 1=0.09 --steps 1 --leave-out").begin()->second[0].density, 0.40,
                kReadTo);
}

TEST_F(ReadPieces, AStripWhoseTonesRunThroughTheLidsIsOneStrip) {
    StripScan scan = mixed();
    scan.strips[0].densities = {1.75, 1.55, 1.35, 1.1, 0.7, 0.4};  // the lid's is 1.35
    scan.linear().tiffsave((program_ / "bed.tif").c_str());
    const auto seen = nlohmann::json::parse(said_by("bed.tif --labels-out labels.csv --json"));
    ASSERT_THAT(seen["pieces"], SizeIs(4));
    EXPECT_EQ(seen["pieces"][2]["steps"], 6);
}

// A print of a negative beside slips: the labels name its negative.
TEST_F(ReadPieces, PrintsLieBesideSlips) {
    const DrawnNegative negative(7);
    std::filesystem::create_directory(program_ / "films");
    negative.scanned().tiffsave((program_ / "films/neg.tif").c_str());
    PrintScan scan;
    DrawnPrint print;
    print.degrees = 1.5;
    scan.prints = {print};
    scan.lid = 1.3;
    scan.patches = {{{30, 20, 90, 70}, 0.09}};
    scan.linear(negative).write_to_file((program_ / "bed.tif").c_str());
    fill_in({{"1", "known", "0.09"},
             {"2", "kind", "print"},
             {"2", "negative", "films/neg.tif"},
             {"2", "strip", "first"},
             {"2", "exposure_s", "12"},
             {"2", "callier", "1"},
             {"2", "flare", "0"}});
    const auto read = rows("bed.tif --labels labels.csv --whole --clear 1 --callier 1 --flare 0");
    ASSERT_EQ(read.size(), 1U);
    ASSERT_GE(read.at("first").size(), 10U);
    double sum = 0;
    int count = 0;
    for (const Reading& row : read.at("first"))
        if (row.wedge_density) sum += std::pow(row.density - print.curve(*row.wedge_density), 2), ++count;
    EXPECT_LE(std::sqrt(sum / count), 0.02);
    const auto told = nlohmann::json::parse(
        said_by("bed.tif --labels labels.csv --whole --clear 1 --callier 1 --flare 0 -o more.csv --json"));
    ASSERT_THAT(told["prints"], SizeIs(1));
    EXPECT_EQ(told["prints"][0]["strip"], "first");
    const auto& corners = told["prints"][0]["pieces"][0]["corners"];
    ASSERT_THAT(corners, SizeIs(4));
    for (std::size_t i = 0; i < 4; ++i) {
        const auto [x, y] = print.corners()[i];
        EXPECT_LE(std::hypot(double(corners[i][0]) - x, double(corners[i][1]) - y), 1) << i;
    }
    // A labels file of one print without a number, as plan writes it, is of the print that the scan is of.
    program_.write("one.csv",
                   "piece,kind,negative,strip,exposure_s,bleach_s\n,print,films/neg.tif,first,12,0\n");
    const auto alone =
        rows("bed.tif --labels one.csv --known 1=0.09 --whole --clear 1 --callier 1 --flare 0");
    EXPECT_EQ(alone.at("first")[0].exposure_s, 12);
    EXPECT_EQ(rows("bed.tif --labels one.csv --known 1=0.09 --whole --clear 1 --exposure 15")
                  .at("first")[0]
                  .exposure_s,
              15)
        << "what is typed counts";
}

// Options override the labels file, as its help says.
TEST_F(ReadPieces, TypedStepsGoBeforeTheLabels) {
    program_.write("typed.csv", "piece,kind,strip\n3,strip,test\n");
    const auto typed = rows("bed.tif --known 1=0.09 --labels typed.csv --exposures 32,16,8,4,2,1")["test"];
    ASSERT_THAT(typed, SizeIs(6));
    EXPECT_EQ(typed.front().exposure_s, 32);
    EXPECT_EQ(typed.back().exposure_s, 1);
    for (const char* wrong :
         {"--exposures 1,2,4,8", "--wedge 0.05,0.15,21", "--exposures 1,2,4,8,16,32,64,128"}) {
        const auto answer =
            program_.run("read bed.tif --known 1=0.09 --labels typed.csv -o none.csv " + std::string(wrong));
        EXPECT_EQ(answer.code, 65) << wrong << "\n" << answer.err;
        EXPECT_FALSE(std::filesystem::exists(program_ / "none.csv")) << wrong;
    }
}

}  // namespace
}  // namespace fogproof::tests
