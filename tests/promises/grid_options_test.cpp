// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of grids, asked of the program: what the grid's numbers and pixels say about them.
#include <glib.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "fogproof/pack/file.hpp"
#include "support/examples.hpp"
#include "support/known_pack.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using vips::VImage;

json grid(const PatchPrints& prints, const std::string& options) {
    const auto answer =
        prints.program.run("grid neg.tif --pack pack.toml --whole --clear 1 --force -o grid.png " + options);
    EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
    return json::parse(content_of(prints.program / "grid.png.json"));
}

TEST(GridOptions, UsualGridIsGradeAcrossAndBleachDown) {
    const PatchPrints prints;
    const json usual = grid(prints, "");
    EXPECT_EQ(usual["across"]["quantity"], "grade");
    EXPECT_EQ(usual["down"]["quantity"], "bleach");
    EXPECT_EQ(usual["cells"].size(), usual["across"]["values"].size() * usual["down"]["values"].size());
}

// A sheet that leaves the developer before its fog appears has nothing that clears.
TEST(GridOptions, BleachIsInSecondsWhereAColumnHasNoFogToClear) {
    const PatchPrints prints;
    const auto quantities = [](const json& grid) {
        return std::pair{grid["across"]["quantity"], grid["down"]["quantity"]};
    };
    const json short_ones = grid(prints, "--across develop=5,90"),
               usual = grid(prints, "--across develop=60,90");
    EXPECT_EQ(quantities(short_ones), quantities(usual));
    EXPECT_THAT(usual["down"]["values"], ElementsAre("0%", "50%", "100%", "150%"));
    EXPECT_THAT(short_ones["down"]["values"], ElementsAre("0s", "20s", "40s", "60s"));
}

// Paper that is not bleached is grey, and a print that is exposed less for it has fewer L* to miss, but no
// lights.
TEST(GridOptions, ThePrintTakenForTheClosestIsExposedAsStartExposesIt) {
    const PatchPrints prints;
    const json grey = grid(prints, "--across exposure=-1,-0.5,0,+0.5,+1 --down bleach=0,20%");
    for (const std::size_t row : {0u, 5u})
        ASSERT_LT(double(grey["cells"][row]["lightness_error"]),
                  double(grey["cells"][row + 2]["lightness_error"]));
    EXPECT_EQ(grey["closest"], 7);
    const json seconds = grid(prints, "--across exposure=5s,10s,20s,40s --down develop=90");
    const auto number = [&](std::size_t cell, const char* name) {
        return double(seconds["cells"][cell][name]);
    };
    for (std::size_t cell = 0; cell < 4; ++cell)
        EXPECT_LE(number(std::size_t(seconds["closest"]), "seen_error"), number(cell, "seen_error"));
}

TEST(GridOptions, EveryAxisSetsItsQuantityInEveryCell) {
    const PatchPrints prints;
    const json doses = grid(prints, "--across restrainer=0,20 --down develop=60,120");
    std::vector<double> restrainer, develop;
    for (const auto& cell : doses["cells"]) {
        restrainer.push_back(cell["restrainer_ml_l"]);
        develop.push_back(cell["develop_s"]);
    }
    EXPECT_THAT(restrainer, ElementsAre(0, 20, 0, 20));
    EXPECT_THAT(develop, ElementsAre(60, 60, 120, 120));

    const json times = grid(prints, "--across exposure=6s,12s --down redevelop=0,30 --bleach 40s");
    std::vector<double> exposure, redevelop;
    for (const auto& cell : times["cells"]) {
        exposure.push_back(cell["exposures"][0]["exposure_s"]);
        redevelop.push_back(cell["redevelop_s"]);
        EXPECT_DOUBLE_EQ(cell["bleach_s"], 40);
    }
    EXPECT_THAT(exposure, ElementsAre(6, 12, 6, 12));
    EXPECT_THAT(redevelop, ElementsAre(0, 0, 30, 30));

    const json bleach = grid(prints, "--across grade=0,4 --down bleach=0,40s,100%");
    EXPECT_DOUBLE_EQ(bleach["cells"][2]["bleach_s"], 40);
    EXPECT_DOUBLE_EQ(bleach["cells"][4]["clearing_percent"], 100);
    EXPECT_DOUBLE_EQ(bleach["cells"][1]["exposures"][0]["grade"], 4);
}

TEST(GridOptions, WhatAnOptionStatesHoldsInEveryCell) {
    const PatchPrints prints;
    const json graded = grid(prints, "--grade 3");
    EXPECT_EQ(graded["across"]["quantity"], "exposure");
    EXPECT_EQ(graded["down"]["quantity"], "bleach");
    for (const auto& cell : graded["cells"]) EXPECT_EQ(double(cell["exposures"][0]["grade"]), 3);

    const json bleached = grid(prints, "--bleach 40s");
    EXPECT_EQ(bleached["across"]["quantity"], "grade");
    EXPECT_EQ(bleached["down"]["quantity"], "restrainer");
    for (const auto& cell : bleached["cells"]) EXPECT_DOUBLE_EQ(cell["bleach_s"], 40);

    const json split = grid(prints, "--split 4s@0 7s@5 --bleach 60%");
    for (const auto& cell : split["cells"]) {
        ASSERT_EQ(cell["exposures"].size(), 2u);
        EXPECT_EQ(double(cell["exposures"][0]["grade"]), 0);
        EXPECT_EQ(double(cell["exposures"][1]["exposure_s"]), 7);
        EXPECT_NEAR(double(cell["clearing_percent"]), 60, 1e-6);
    }
    // With all of them stated one print is left.
    const json one = grid(prints, "--grade 2 --exposure 9s --restrainer 10 --develop 75 --bleach 40s");
    ASSERT_EQ(one["cells"].size(), 1u);
    EXPECT_EQ(double(one["cells"][0]["develop_s"]), 75);
    EXPECT_EQ(double(one["cells"][0]["restrainer_ml_l"]), 10);

    const auto both = prints.program.run(
        "grid neg.tif --pack pack.toml --whole --clear 1 -o no.png --grade 3 --across grade=1,2");
    EXPECT_EQ(both.code, 64);
    EXPECT_THAT(both.err, HasSubstr("--grade: is given beside --across grade, which varies it"));
}

TEST(GridOptions, CellIsTheLongerSideOfOnePrint) {
    const PatchPrints prints;
    const auto width = [&](int cell) {
        static_cast<void>(
            grid(prints, "--across grade=1,2,3 --down bleach=0,100% --cell " + std::to_string(cell)));
        return VImage::new_from_file((prints.program / "grid.png").c_str()).width();
    };
    // Three prints, each with its border of up to a tenth on either side. None is larger than its scan, of
    // 168.
    const int wider = width(160) - width(120);
    EXPECT_GE(wider, 3 * 40);
    EXPECT_LE(wider, 3 * 40 * 1.2);
}

// The pictures of a page, in its order.
std::vector<VImage> pictures_in(const std::string& page) {
    const std::string mark = "<img src=\"data:image/jpeg;base64,";
    std::vector<VImage> pictures;
    for (auto at = page.find(mark); at != std::string::npos; at = page.find(mark, at + 1)) {
        const auto from = at + mark.size();
        gsize size = 0;
        guchar* const bytes = g_base64_decode(page.substr(from, page.find('"', from) - from).c_str(), &size);
        pictures.push_back(VImage::new_from_buffer(bytes, size, "").copy_memory());
        g_free(bytes);
    }
    return pictures;
}

TEST(GridOptions, HalvesShowEachPrintBeforeAndAfterTheBleach) {
    const PatchPrints prints;
    save_patches(prints.program, "neg.tif", {0.05, 0.051, 0.05, 0.051, 0.05, 0.051, 0.05});
    static_cast<void>(
        grid(prints, "--across grade=2,3 --down bleach=50%,150% --exposure 12s --halves --html"));
    const auto halves = pictures_in(content_of(prints.program / "grid.png.html"));
    ASSERT_EQ(halves.size(), 4U);
    for (const VImage& print : halves) {
        const auto mean = [&](int left) { return print.extract_area(left, 30, 40, 10).avg(); };
        EXPECT_LT(mean(print.width() / 2 - 50), mean(print.width() / 2 + 10) - 5);
    }
    const auto both =
        prints.program.run("grid neg.tif --pack pack.toml --force -o grid.png --halves --spread");
    EXPECT_NE(both.code, 0);
    EXPECT_THAT(both.err, HasSubstr("--spread"));
}

TEST(GridOptions, SpreadShowsEachPrintDarkLikelyAndLight) {
    const PatchPrints prints;
    save_patches(prints.program, "neg.tif", {0.05, 0.051, 0.05, 0.051, 0.05, 0.051, 0.05});
    static_cast<void>(grid(prints, "--across grade=2,3 --down bleach=0,100% --exposure 12s --spread --html"));
    const auto spread = pictures_in(content_of(prints.program / "grid.png.html"));
    ASSERT_EQ(spread.size(), 4U);
    for (const VImage& print : spread) {
        const auto mean = [&](double share) {
            return print.extract_area(int(share * print.width()) - 5, print.height() / 2 - 5, 10, 10).avg();
        };
        EXPECT_LT(mean(0.2), mean(0.5) - 1);
        EXPECT_LT(mean(0.5), mean(0.8) - 1);
    }
}

// Where nearly all silver is gone the paper is left, whose tint is that of the slip beside it.
TEST(GridOptions, SpreadShowsTheLightestTonesInThePapersTint) {
    const PatchPrints prints;
    const std::string known = content_of(prints.program / "pack.toml");
    prints.program.write("pack.toml", known + "[tone]\nsilver = 1.5\nthinned = 1.5\n");
    save_patches(prints.program, "neg.tif", {0.05, 0.051, 0.05, 0.051, 0.05, 0.051, 0.05});
    static_cast<void>(grid(prints, "--across grade=2,3 --down bleach=0,100% --exposure 3s --spread --html"));
    const VImage print = pictures_in(content_of(prints.program / "grid.png.html")).back();
    // Red over blue: of the light third, and of the slip at the right edge.
    const auto warmth = [&](double share) {
        const VImage place = print.extract_area(int(share * print.width()) - 2, print.height() / 2 - 3, 4, 6);
        return place.extract_band(0).avg() - place.extract_band(2).avg();
    };
    const auto light = [&](double share) {
        return print.extract_area(int(share * print.width()) - 2, print.height() / 2 - 3, 4, 6).avg();
    };
    ASSERT_NEAR(light(0.8), light(0.985), 4);
    EXPECT_NEAR(warmth(0.8), warmth(0.985), 3);
}

TEST(GridOptions, SpreadShowsBrushedBleachLessEvenThanABath) {
    // On a pack that is known exactly only the strokes of the brush differ, and sheet from sheet.
    const PatchPrints prints;
    prints.program.write("pack.toml", written(exactly_known(examples::fogged_pack(0.35))));
    save_patches(prints.program, "neg.tif", {0.6, 0.601, 0.6, 0.601, 0.6, 0.601, 0.6});
    const auto apart = [&](const std::string& bleach) {
        prints.program.write("local.toml",
                             "fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = 12\n" + bleach);
        static_cast<void>(grid(prints,
                               "--across exposure=12s --down restrainer=0 --recipe local.toml --spread "
                               "--html --force"));
        const VImage print = pictures_in(content_of(prints.program / "grid.png.html")).front();
        const auto mean = [&](double share) {
            return print.extract_area(int(share * print.width()) - 5, print.height() / 2 - 5, 10, 10).avg();
        };
        return mean(0.8) - mean(0.2);
    };
    EXPECT_GT(
        apart("[[local]]\nwork = \"bleach\"\ntime_s = 40\nwhere = { oval = [50, 50, 150, 150], soft = 0 }\n"),
        apart("[bleach]\ntime_s = 40\n") + 1);
}

TEST(GridOptions, HtmlWritesThePageBesideThePicture) {
    const PatchPrints prints;
    static_cast<void>(grid(prints, "--across grade=2,3 --down bleach=0,100%"));
    EXPECT_FALSE(std::filesystem::exists(prints.program / "grid.png.html"));
    static_cast<void>(grid(prints, "--across grade=2,3 --down bleach=0,100% --html"));
    const std::string page = content_of(prints.program / "grid.png.html");
    EXPECT_THAT(page, HasSubstr("<!DOCTYPE html>"));
    // The large print's tables, and a way for each filter; tests/page drives it in a browser.
    EXPECT_THAT(
        page, testing::AllOf(HasSubstr("id=\"tray-print\""), HasSubstr("id=\"tray-pairs\""),
                             HasSubstr(">grade 2, developed 90 s<"), HasSubstr(">grade 3, developed 90 s<")));
}

TEST(GridOptions, OneCellIsThePrintOfItsRecipe) {
    // Grid and print say the same densities for one recipe.
    const PatchPrints prints;
    const json cells = grid(prints, "--across grade=3 --down bleach=50% --exposure 12s")["cells"];
    const auto said = prints.program.run(
        "print neg.tif --pack pack.toml --whole --clear 1 --force -o out.tif --grade 3 --bleach 50% "
        "--exposure 12s");
    char range[64];
    std::snprintf(range, sizeof range, "density %.2f to %.2f", double(cells[0]["density_lightest"]),
                  double(cells[0]["density_darkest"]));
    EXPECT_THAT(said.err, HasSubstr(range));
}

TEST(GridOptions, ABleachFarBeyondClearingMovesTheStartingExposureNoFurther) {
    const PatchPrints prints;
    const json cells = grid(prints, "--across grade=2,4 --down bleach=150%,300%,2000s")["cells"];
    for (std::size_t column = 0; column < 2; ++column) {
        const double pulled_late = cells[column]["exposures"][0]["exposure_s"];
        for (const std::size_t row : {1u, 2u})
            EXPECT_NEAR(double(cells[2 * row + column]["exposures"][0]["exposure_s"]), pulled_late,
                        0.01 * pulled_late);
    }
}

// What stands over a column is what its prints got.
TEST(GridOptions, MultiplesOfALocalWorkAreHeadedByTheirAmount) {
    const PatchPrints prints;
    const auto page = [&](const std::string& amount) {
        prints.program.write("local.toml",
                             "fogproof_recipe = 1\n[[local]]\nwork = \"burn\"\nname = \"sky\"\n" + amount +
                                 "\nwhere = { edge = \"top\", reach = 40, soft = 10 }\n");
        static_cast<void>(grid(prints, "--html --recipe local.toml --across sky=0,0.5,2 --down bleach=0"));
        return content_of(prints.program / "grid.png.html");
    };
    EXPECT_THAT(page("stops = 1"), AllOf(HasSubstr("none"), HasSubstr("+0.5 stop"), HasSubstr("+2 stop")));
    EXPECT_THAT(page("time_s = 10"), AllOf(HasSubstr("5 s"), HasSubstr("20 s")));
}

TEST(GridOptions, WhatNeedsABleachSaysThatItDoesNothingWithoutOne) {
    const PatchPrints prints;
    const auto page = [&](const std::string& across) {
        static_cast<void>(grid(prints, "--html --across " + across + " --down bleach=0,100%"));
        return content_of(prints.program / "grid.png.html");
    };
    EXPECT_THAT(page("toner=none,sulphide"),
                AllOf(HasSubstr("no bleach, so sulphide tones nothing"), HasSubstr("sulphide 180 s")));
    EXPECT_THAT(page("redevelop=0,60"), AllOf(HasSubstr("no bleach, so redevelopment changes nothing"),
                                              HasSubstr("redeveloped 60 s")));
}

TEST(GridOptions, TheHeadBeginsWithAWordWhateverTheAxesAre) {
    const PatchPrints prints;
    static_cast<void>(grid(prints, "--html --across restrainer=0,20 --down develop=60,90"));
    EXPECT_THAT(content_of(prints.program / "grid.png.html"),
                AllOf(HasSubstr("bleach bath 1+50"), Not(HasSubstr(">, bleach bath"))));
}

TEST(GridOptions, WhatALocalBleachGivesAToneToIsNotSaidToBeUntoned) {
    const PatchPrints prints;
    prints.program.write("face.toml",
                         "fogproof_recipe = 1\n[[local]]\nwork = \"bleach\"\nclearing_percent = 100\n"
                         "where = { oval = [60, 40, 20, 15], soft = 5 }\n");
    static_cast<void>(grid(prints, "--html --recipe face.toml --across toner=none,sulphide --down bleach=0"));
    EXPECT_THAT(content_of(prints.program / "grid.png.html"), Not(HasSubstr("tones nothing")));
}

}  // namespace
}  // namespace fogproof::tests
