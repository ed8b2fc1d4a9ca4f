// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The starting point in words and as JSON.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "choose/starting_point.hpp"
#include "choose/strip_place.hpp"
#include "choose/wanted.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "report/start_report.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

TEST(StartReport, IntervalsHoldTheirValuesAndJsonItsFixedPoints) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const StartingPoints points = starting_points(printing, as_fresh(printing), usual_bounds(printing));
    EXPECT_EQ(points.by_grade.size(), 6u);
    for (const auto& point : points.by_grade) EXPECT_GE(point.found.cost, points.best.found.cost - 1e-3);
    const auto json = nlohmann::json::parse(start_json(printing, points, {"hut", "fresh paper", 0, {}}));
    std::vector<nlohmann::json> rows = json["by_grade"];
    rows.push_back(json["best"]);
    for (const auto& row : rows) {
        for (const char* key : {"grade", "restrainer_ml_l", "develop_s", "dilution", "lightness_error"})
            EXPECT_TRUE(row[key].is_number()) << key;
        for (const std::string key : {"exposure_s", "bleach_s"}) {
            EXPECT_LE(row[key + "_low"], row[key]);
            EXPECT_LE(row[key], row[key + "_high"]);
        }
        EXPECT_LT(row["exposure_s_low"], row["exposure_s"]) << "the pack is mostly assumed";
    }
    // Through the softest filter, and as long as the printer is told in words.
    EXPECT_EQ(json["flash"]["grade"], 0);
    EXPECT_GT(double(json["flash"]["longest_s"]), 0);
    const auto dry = nlohmann::json::parse(start_json(printing, points, {"hut", "fresh paper", 0.10, {}}));
    // The pack is fitted to dry densities: drying down is in the times already.
    EXPECT_EQ(dry["best"]["exposure_s"], json["best"]["exposure_s"]);
}

TEST(StartReport, PackWithoutAnAnchorIsAnsweredInStopsAndToldWhy) {
    Pack pack = fogged_pack(0.35);
    pack.darkroom.anchored = false;
    const Printing printing(pack, ordinary_frame());
    const StartingPoints points = starting_points(printing, as_fresh(printing), usual_bounds(printing));
    const std::string text = start_text(printing, points, {"hut", "fresh paper", 0, {}});
    EXPECT_NE(text.find("full black"), std::string::npos);
    EXPECT_NE(text.find("To get seconds, read one print"), std::string::npos);
    // Counted from full black a print is surer than in seconds, for which that time must be found first.
    EXPECT_NE(text.find("assume that you know the time for full black exactly"), std::string::npos);
    const auto best =
        nlohmann::json::parse(start_json(printing, points, {"hut", "fresh paper", 0, {}}))["best"];
    EXPECT_TRUE(best["exposure_s"].is_null());
    // The doubt is that of the exposure, in stops.
    EXPECT_NEAR(double(best["full_black_stops_high"]) - double(best["full_black_stops"]),
                std::log2(points.best.exposure_s.high / points.best.exposure_s.value), 1e-9);
    EXPECT_LT(double(best["full_black_stops_low"]), double(best["full_black_stops"]));
}

// One place of a strip tells less than its whole look, which the figure after a test strip counts on.
TEST(StartReport, AfterOneSeenBandAWholeStripIsNotSaidToBeJudged) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const StartingPoints points = starting_points(printing, as_fresh(printing), usual_bounds(printing));
    StartRequest request{"hut", "fresh paper", 0, {}};
    EXPECT_NE(start_text(printing, points, request).find("; after the test strip "), std::string::npos);
    request.seen = SeenBand{4, 7, {12}, {12}, 0.25, {}};
    const std::string text = start_text(printing, points, request);
    EXPECT_NE(text.find("; if you judge all tones of a strip"), std::string::npos) << text;
    EXPECT_EQ(text.find("; after the test strip "), std::string::npos) << text;
}

// A time of redevelopment means nothing without the print that it is for.
TEST(StartReport, ARescueTellsThePrintAndThatItsPaceIsAssumed) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    Recipe recipe;
    recipe.exposures = {{1.5, Stops{0}}};
    recipe.restrainer_ml_l = 10;
    const Proof made = printing.proof(recipe, printing.target().time);
    const StartRequest request{"hut", "fresh paper", 0, {}};
    const Rescue saved = rescue(printing, made, {400}, printing.fresh());
    const std::string text = rescue_text(printing, made, saved, request);
    for (const char* words : {"hut on ", "Goal: fresh paper.", "through grade 1.5", "restrainer 10 ml/L",
                              "How fast silver comes back is assumed"})
        EXPECT_NE(text.find(words), std::string::npos) << words << "\n" << text;
    const auto json = nlohmann::json::parse(rescue_json(printing, made, saved, request));
    EXPECT_EQ(json["negative"], "hut");
    EXPECT_EQ(json["print"]["exposures"][0]["grade"], 1.5);
    EXPECT_EQ(json["print"]["restrainer_ml_l"], 10);
    EXPECT_LT(double(json["best"]["redevelop_s_low"]), double(json["best"]["redevelop_s"]));
    EXPECT_GT(double(json["best"]["redevelop_s_high"]), double(json["best"]["redevelop_s"]));
    EXPECT_NE(text.find(" come closest (95 %)"), std::string::npos) << text;
    Rescue brief = saved;
    brief.redevelop_s.low = 0.64;  // nobody redevelops to a hundredth of a second
    EXPECT_NE(rescue_text(printing, made, brief, request).find("less than 1 s to "), std::string::npos);
    // Not bleached enough: what redevelopment brings back only takes it further off.
    const std::string early =
        rescue_text(printing, made, rescue(printing, made, {5}, printing.fresh()), request);
    EXPECT_NE(early.find("bleach on"), std::string::npos) << early;
}

}  // namespace
}  // namespace fogproof::tests
