// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "pack/from_slips.hpp"
#include "pack/schema.hpp"
#include "report/assumptions.hpp"
#include "report/curve_chart.hpp"
#include "report/number_words.hpp"
#include "report/pack_report.hpp"
#include "scan/vips_session.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using Json = nlohmann::json;

Pack attic() {
    return pack_from_slips(
        {.white_density = 0.08, .blank_density = 0.42, .tint = Tint::cold, .name = "attic"});
}

Json report(const Pack& pack, const std::vector<std::string>& at) {
    std::vector<CurveRequest> requests;
    for (const auto& text : at) requests.push_back(curve_request(text, "--at"));
    return Json::parse(pack_json(pack, worked_curves(pack, requests)));
}

TEST(CurveRequest, SaysTheRecipe) {
    const CurveRequest request = curve_request("grade=3,restrainer=20,bleach=40s,develop=60", "--at");
    EXPECT_EQ(request.label, "grade=3,restrainer=20,bleach=40s,develop=60");
    EXPECT_EQ(request.recipe.exposures.front().grade, 3);
    EXPECT_EQ(request.recipe.restrainer_ml_l, 20);
    EXPECT_EQ(std::get<Seconds>(request.recipe.bleach).value, 40);
    EXPECT_EQ(request.recipe.develop_s, 60);
}

TEST(CurveRequest, RefusesWhatNoCurveCanHave) {
    const auto ask = [](const char* text) {
        return refusal(Fault::usage, [&] { static_cast<void>(curve_request(text, "--at")); });
    };
    EXPECT_THAT(ask("grade=2,exposure=+1"), HasSubstr("a curve runs over all exposures"));
    EXPECT_THAT(ask("grade=2,grade=3"), HasSubstr("grade twice"));
    EXPECT_THAT(ask("grad=2"), HasSubstr("grade"));
    EXPECT_THAT(ask(""), HasSubstr("--at"));
    EXPECT_THAT(ask("bleach=-4s"), HasSubstr("expected: 0 to 7200 s"));
}

TEST(PackJson, GivesTheArraysOfEveryRecipeAsked) {
    const Json all = report(attic(), {"grade=3,restrainer=20,bleach=40s", "grade=2"});
    ASSERT_EQ(all.at("recipes").size(), 2u);
    for (const Json& recipe : all.at("recipes")) {
        for (const char* key : {"log_exposure", "density", "density_low", "density_high"})
            EXPECT_EQ(recipe.at(key).size(), 121u) << key;
        EXPECT_EQ(recipe.at("log_exposure").front(), -3.0);
        EXPECT_EQ(recipe.at("log_exposure").at(59), -0.05);
        EXPECT_EQ(recipe.at("log_exposure").back(), 3.0);
        for (const char* key : {"iso_range", "paper_white", "fog"}) EXPECT_TRUE(recipe.at(key).is_number());
        for (std::size_t i = 0; i < 121; ++i) {
            EXPECT_LE(recipe["density_low"][i], recipe["density"][i]);
            EXPECT_GE(recipe["density_high"][i], recipe["density"][i]);
        }
    }
}

TEST(PackJson, SlipsComeBackAsTheyWereRead) {
    const Json all = report(attic(), {"grade=2"});
    EXPECT_EQ(all.at("paper_white"), 0.08);  // kept to millionths
    EXPECT_EQ(all.at("fog"), 0.34);
    EXPECT_EQ(all.at("whites").at("only_fixed").at("density"), 0.08);
    EXPECT_TRUE(all.at("speed_s").is_null()) << "no anchor, no seconds";
    EXPECT_TRUE(all.at("iso_speed").is_null());
}

// Those of the file, and what toners would do by default, which stands in no file until somebody says it.
bool is_shown(const PackNumber& row) {
    return !is_departure(row) && (is_listed(attic(), row) || is_of_toner(row));
}

std::size_t counted_one_by_one() {
    return std::size_t(std::ranges::count_if(
        pack_numbers(), [](const PackNumber& row) { return is_shown(row) && !is_of_toner(row); }));
}

TEST(PackJson, EveryNumberSaysWhereItComesFrom) {
    const Json all = report(attic(), {});
    ASSERT_EQ(all.at("numbers").size(), std::size_t(std::ranges::count_if(pack_numbers(), is_shown)));
    EXPECT_TRUE(all.contains("departure")) << "its numbers are shown together";
    for (const Json& number : all.at("numbers")) {
        const bool is_slip = number.at("name") == "paper.white" || number.at("name") == "fog.blank";
        EXPECT_EQ(number.at("from"), is_slip ? "measured" : "assumed") << number;
    }
}

TEST(PackJson, RestrainerWhitensAndCostsSpeedBleachWhitensFurther) {
    // Common practice, no source.
    const Json whites = report(attic(), {}).at("whites");
    double before = whites.at("developed_blank").at("density"), lost = 0;
    for (const Json& row : whites.at("restrained")) {
        EXPECT_LT(row.at("density"), before);
        EXPECT_GT(row.at("stops_lost"), lost);
        before = row.at("density");
        lost = row.at("stops_lost");
    }
    EXPECT_GT(before, whites.at("only_fixed").at("density")) << "a restrained fogged sheet still shows grey";
    for (const Json& row : whites.at("bleached")) {
        EXPECT_LE(row.at("bleach_s_low"), row.at("bleach_s"));
        EXPECT_GE(row.at("bleach_s_high"), row.at("bleach_s"));
        EXPECT_GT(row.at("density"), whites.at("only_fixed").at("density"));
    }
    EXPECT_LT(whites.at("bleached").back().at("density"), before);
}

TEST(PackJson, IsoSpeedNeedsTheIlluminanceOfTheAnchor) {
    // P = 1000 / Hm (ISO 6846, from memory): 4 lx for 1 s is 4 lx s, so P 250.
    Pack pack = attic();
    pack.darkroom.anchored = true;
    pack.speed_log_s = 0;
    EXPECT_TRUE(report(pack, {}).at("iso_speed").is_null());
    pack.darkroom.anchor_lux = 4;
    EXPECT_EQ(report(pack, {}).at("iso_speed"), 250);
    EXPECT_EQ(report(pack, {}).at("speed_s"), 1.0);
}

TEST(PackText, CountsAndListsWhatIsMeasuredAndAssumed) {
    const std::string text = pack_text(attic(), Numbers::listed);
    EXPECT_THAT(text, HasSubstr("attic: variable contrast, gloss"));
    EXPECT_THAT(text, HasSubstr("2 numbers measured, 0 given, " + std::to_string(counted_one_by_one() - 2) +
                                " assumed"));
    for (const auto& row : pack_numbers())
        // A toner's patch that nobody measured has no colour to tell.
        EXPECT_EQ(text.find("  " + row.name() + " ") != std::string::npos,
                  is_shown(row) && !row.key.starts_with("patch_"))
            << row.name();
    EXPECT_THAT(text, HasSubstr("Labels, local rules and licensed practice"));
    constexpr std::size_t kColumns = 100;
    std::size_t start = 0;
    for (auto end = text.find('\n'); end != std::string::npos; start = end + 1, end = text.find('\n', start))
        EXPECT_LE(end - start, kColumns) << text.substr(start, end - start);
}

TEST(PackText, LeavesTheNumbersToWhoAsksForThem) {
    const std::string text = pack_text(attic());
    EXPECT_EQ(text.find("  " + pack_numbers().front().name() + " "), std::string::npos);
    EXPECT_THAT(text, HasSubstr("(listed by --all)"));
}

TEST(PackText, GradedAndUnfoggedPapersHaveTheirPages) {
    const std::string graded = pack_text(pack_from_slips(
        {.white_density = 0.1, .blank_density = 0.3, .contrast = Contrast::graded, .grade = 3.0}));
    EXPECT_THAT(graded, HasSubstr("grade 3"));
    const std::string fresh = pack_text(Pack{});
    EXPECT_THAT(fresh, HasSubstr("No fog to clear"));
}

TEST(CurveChart, IsDrawnByALibraryThatReadsSvg) {
    // The witness is librsvg, by way of libvips.
    Pack pack = attic();
    pack.name = "<attic> & \"co\"";
    const std::string svg = curves_svg(pack, worked_curves(pack, usual_curves(pack)));
    EXPECT_THAT(svg, HasSubstr("&lt;attic&gt; &amp; &quot;co&quot;"));
    vips_ready();
    vips_operation_block_set("VipsForeignLoadSvg", FALSE);
    const auto picture = vips::VImage::svgload_buffer(vips_blob_copy(svg.data(), svg.size()));
    EXPECT_EQ(picture.width(), 960);
    EXPECT_EQ(picture.height(), 640);
    EXPECT_GT(picture.deviate(), 1) << "an empty page";
    vips_operation_block_set("VipsForeignLoadSvg", TRUE);
}

TEST(CurveChart, IsTheSameEveryTime) {
    const Pack pack = attic();
    const auto draw = [&] { return curves_svg(pack, worked_curves(pack, usual_curves(pack))); };
    EXPECT_EQ(draw(), draw());
}

TEST(CurveChart, UsualCurvesLeaveTheBleachOutWhereThereIsNoFog) {
    EXPECT_EQ(usual_curves(attic()).size(), 4u);
    EXPECT_EQ(usual_curves(Pack{}).size(), 3u);
    Pack graded;
    graded.contrast = Contrast::graded;
    EXPECT_EQ(usual_curves(graded).size(), 1u);
}

// Keys are for whoever edits a pack's file; pictures are for everybody.
TEST(PackReport, PicturesNameNumbersInWords) {
    for (const Contrast contrast : {Contrast::graded, Contrast::variable}) {
        Pack pack;
        pack.contrast = contrast;
        pack.edge_fog.density = 0.1;
        const std::string said = assumptions(pack);
        EXPECT_EQ(said.find('_'), std::string::npos) << said;
        EXPECT_EQ(said.find("seconds"), std::string::npos) << "none are known: " << said;
    }
    for (const auto& number : pack_numbers())
        if (!is_departure(number)) {
            EXPECT_EQ(number_words(number).find('_'), std::string::npos) << number.name();
        }
    for (const auto& section : pack_sections())
        if (section.name != kDepartureSection) {
            EXPECT_EQ(section_words(section.name).find('_'), std::string::npos) << section.name;
        }
}

}  // namespace
}  // namespace fogproof::tests
