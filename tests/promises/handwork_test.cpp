// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG --handwork MAP`, asked of the program on drawn prints whose burns and dodges are
// known. No outside source: the truth is the drawing.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "fogproof/pack/readings.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

// What is promised of a burn: its size, and where its rim is half as strong, in parts of the frame's width.
constexpr double kSizeInStops = 0.1, kRim = 0.03, kToneRms = 0.02;

double half_way(double from_outline, double soft) {
    return 1 / (1 + std::exp(from_outline / soft));
}

class Handwork : public ::testing::Test {
  protected:
    Handwork() : negative_(7) { negative_.scanned().tiffsave((program_ / "neg.tif").c_str()); }

    nlohmann::json read(const DrawnPrint& print, const std::string& more) {
        PrintScan scan;
        scan.prints = {print};
        scan.patches = {{{30, 20, 90, 70}, 0.09}};
        scan.linear(negative_).write_to_file((program_ / "print.tif").c_str());
        const auto answer = program_.run(
            "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --white "
            "40,30,70,50=0.09 --json -o rows.csv " +
            more);
        EXPECT_EQ(answer.code, 0) << answer.err;
        said_ = answer.err;
        return answer.code == 0 ? nlohmann::json::parse(answer.out) : nlohmann::json();
    }
    // Stops that a mask and the recipe's amount give at a place of the frame.
    [[nodiscard]] double stops_in(const std::string& name, double amount, double u, double v) const {
        vips::VImage mask = vips::VImage::new_from_file((program_ / name).c_str());
        const auto level = mask.getpoint(int(u * mask.width()), int(v * mask.height()));
        return amount * level[0] / 65535;
    }
    // The stops of the recipe's first work.
    [[nodiscard]] double most_in(const std::string& recipe) const {
        const Recipe read = read_recipe(program_ / recipe);
        return read.local.empty() ? 0 : std::get<Stops>(read.local.front().amount).value;
    }
    // Down the frame, where the mask falls below half of its amount.
    [[nodiscard]] double rim_of(const std::string& name, double u) const {
        for (double v = 0; v < 1; v += 0.002)
            if (stops_in(name, 1, u, v) < 0.5) return v;
        return 1;
    }
    [[nodiscard]] double off_curve(const DrawnPrint& print) const {
        double sum = 0, count = 0;
        for (const Reading& row : parse_readings(content_of(program_ / "rows.csv"), "rows.csv"))
            if (row.wedge_density) sum += std::pow(row.density - print.curve(*row.wedge_density), 2), ++count;
        return std::sqrt(sum / std::max(count, 1.0));
    }

    DrawnNegative negative_;
    Program program_;
    std::string said_;
};

TEST_F(Handwork, ABurnOfHalfAStopIsFoundWithItsSizeAndItsRim) {
    DrawnPrint print;
    print.degrees = 1.5, print.falloff_stops = 0.1;
    print.worked = [](double, double v) { return 0.5 * half_way(v - 0.35, 0.03); };
    const auto told = read(print, "--handwork hand.png");
    ASSERT_FALSE(told.is_null());
    const auto& places = told["prints"][0]["handwork"];
    ASSERT_EQ(places.size(), 1u) << places;
    EXPECT_EQ(places[0]["work"], "burn");
    EXPECT_NEAR(double(places[0]["stops"]), 0.5, kSizeInStops);
    EXPECT_THAT(said_, AllOf(HasSubstr("burnt by 0."), HasSubstr("at the top")));
    const Recipe recipe = read_recipe(program_ / "hand.toml");
    ASSERT_EQ(recipe.local.size(), 1u);
    EXPECT_EQ(recipe.local[0].kind, LocalWork::Kind::burn);
    const double amount = std::get<Stops>(recipe.local[0].amount).value;
    EXPECT_NEAR(stops_in("hand.png", amount, 0.5, 0.1), 0.5, kSizeInStops);
    EXPECT_NEAR(stops_in("hand.png", amount, 0.5, 0.7), 0, kSizeInStops);
    for (const double u : {0.2, 0.5, 0.8}) EXPECT_NEAR(rim_of("hand.png", u), 0.35, 1.5 * kRim) << u;
    EXPECT_LE(off_curve(print), kToneRms);
    const vips::VImage seen = vips::VImage::new_from_file((program_ / "hand-seen.png").c_str());
    EXPECT_GT(seen.width(), 1000);
}

TEST_F(Handwork, ASoftDodgeIsNotTakenForFalloff) {
    // A face held back in the middle makes up for the corners that the enlarger leaves darker.
    DrawnPrint print;
    print.degrees = -1, print.falloff_stops = 0.35;
    print.worked = [](double u, double v) {
        const double far = std::hypot(u - 0.45, v - 0.5) / 0.16;
        return -0.7 * std::exp(-far * far / 2);
    };
    const auto told = read(print, "");
    ASSERT_FALSE(told.is_null());
    EXPECT_NEAR(told["prints"][0]["pieces"][0]["falloff_stops"].get<double>(), 0.35, 0.05);
    EXPECT_LE(off_curve(print), kToneRms);
}

TEST_F(Handwork, WhatWasHeldBackIsAMaskOfItsOwn) {
    DrawnPrint print;
    print.worked = [](double u, double v) {
        return 0.7 * half_way(v - 0.3, 0.03) -
               0.6 * half_way(std::hypot(u - 0.6, (v - 0.75) / 1.5) - 0.14, 0.02);
    };
    const auto told = read(print, "--handwork hand.png");
    ASSERT_FALSE(told.is_null());
    const Recipe recipe = read_recipe(program_ / "hand.toml");
    ASSERT_EQ(recipe.local.size(), 2u);
    EXPECT_EQ(recipe.local[1].kind, LocalWork::Kind::dodge);
    EXPECT_NEAR(stops_in("hand.png", std::get<Stops>(recipe.local[0].amount).value, 0.3, 0.1), 0.7,
                kSizeInStops);
    EXPECT_NEAR(stops_in("hand-dodged.png", std::get<Stops>(recipe.local[1].amount).value, 0.6, 0.75), 0.6,
                kSizeInStops);
    EXPECT_THAT(said_, AllOf(HasSubstr("burnt by"), HasSubstr("dodged (or bleached locally) by")));
    EXPECT_LE(off_curve(print), kToneRms);
}

TEST_F(Handwork, OfAPrintWithoutAnyIsOnlyAPictureThatSaysSo) {
    const auto told = read(DrawnPrint{}, "--handwork hand.png");
    ASSERT_FALSE(told.is_null());
    EXPECT_TRUE(told["prints"][0]["handwork"].empty());
    EXPECT_THAT(said_, HasSubstr("no handwork is seen"));
    EXPECT_TRUE(std::filesystem::exists(program_ / "hand-seen.png"));
    for (const char* name : {"hand.png", "hand-dodged.png", "hand.toml"})
        EXPECT_FALSE(std::filesystem::exists(program_ / name)) << name;
}

// Where tones are almost as white as the paper, a hundredth of density is a fifth of a stop: too little to
// speak of a hand.
TEST_F(Handwork, IsNotMadeUpOfTonesThatHardlyChange) {
    ASSERT_EQ(program_.run("demo . --megapixels 1").code, 0);
    for (const std::string recipe : {"--grade 3 --bleach 50%", "--grade 4"}) {
        ASSERT_EQ(
            program_
                .run("print negative.tif --pack pack.toml --border 6 --size 1500 --force -o print.tif " +
                     recipe)
                .code,
            0);
        const auto answer = program_.run(
            "read print.tif --negative negative.tif --white 2,2,60,60=0.12 --json --force -o rows.csv "
            "--strip " +
            std::string(recipe, 8, 1));
        ASSERT_EQ(answer.code, 0) << answer.err;
        EXPECT_TRUE(nlohmann::json::parse(answer.out)["prints"][0]["handwork"].empty())
            << recipe << answer.err;
        EXPECT_THAT(answer.err, testing::Not(HasSubstr("the print looks"))) << recipe;
    }
}

TEST(HandworkOfPieces, IsOfOnePrintAtATime) {
    const Program program;
    program.write("two.csv", "piece,kind,strip,negative\n1,skip,,\n3,strip,test,\n4,print,p,neg.tif\n");
    program.write("neg.tif", "");
    program.write("bed.tif", "");
    const auto answer = program.run("read bed.tif --labels two.csv --handwork hand.png -o none.csv");
    EXPECT_EQ(answer.code, 64);
    EXPECT_THAT(answer.err, testing::HasSubstr("--handwork: beside labels of several pieces"));
}

// The print was trimmed, and prints are not read up to their very edge.
TEST_F(Handwork, AMaskGoesOnToTheEdgesOfTheFrame) {
    DrawnPrint print;
    print.worked = [](double, double v) { return 0.8 * half_way(v - 0.35, 0.03); };
    const auto whole = read(print, "--handwork hand.png");
    ASSERT_FALSE(whole.is_null());
    const auto expect_burnt_at = [this](const std::string& name, double u) {
        EXPECT_NEAR(stops_in(name + ".png", most_in(name + ".toml"), u, 0.1), 0.8, 0.15) << name << u;
    };
    for (const double u : {0.002, 0.5, 0.997}) expect_burnt_at("hand", u);
    EXPECT_THAT(said_, testing::Not(HasSubstr("is not on the print")));
    std::filesystem::remove(program_ / "rows.csv");
    print.last = 0.75;
    const auto trimmed = read(print, "--handwork trimmed.png");
    ASSERT_FALSE(trimmed.is_null());
    for (const double u : {0.5, 0.8, 0.997}) expect_burnt_at("trimmed", u);
    EXPECT_THAT(said_,
                HasSubstr("% of the frame is not on the print, and there the masks go on as beside it"));
}

TEST_F(Handwork, AHalfDippedInBleachIsWarnedOf) {
    DrawnPrint left, right;
    left.last = 0.5, right.first = 0.5;
    right.curve = bleached_curve, right.border_density = bleached_curve(9);
    PrintScan scan;
    scan.prints = {left, right};
    scan.patches = {{{30, 20, 90, 70}, 0.09}};
    scan.linear(negative_).write_to_file((program_ / "print.tif").c_str());
    const auto answer = program_.run(
        "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --white 40,30,70,50=0.09 "
        "-o rows.csv");
    ASSERT_EQ(answer.code, 0) << answer.err;
    EXPECT_THAT(answer.err, AllOf(HasSubstr("a large part of the print differs from the rest"),
                                  HasSubstr("cut between them is read with --halves")));
    const auto as_halves = program_.run(
        "read print.tif --negative neg.tif --whole --clear 1 --callier 1 --flare 0 --white 40,30,70,50=0.09 "
        "-o halves.csv --halves --bleach 40");
    EXPECT_EQ(as_halves.code, 65);
    EXPECT_THAT(as_halves.err, HasSubstr("is cut between the halves first"));
}

}  // namespace
}  // namespace fogproof::tests
