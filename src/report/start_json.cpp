// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>
#include <nlohmann/json.hpp>

#include "base/frame_side.hpp"
#include "base/version.hpp"
#include "choose/split_grade.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/toner_words.hpp"
#include "report/edge_fog_words.hpp"
#include "report/json_text.hpp"
#include "report/local_words.hpp"
#include "report/proof_json.hpp"
#include "report/pull_rule.hpp"
#include "report/seen_words.hpp"
#include "report/start_report.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

Json point_json(const Printing& printing, const StartingPoint& point) {
    const bool anchored = printing.pack().darkroom.anchored;
    const auto seconds = [&](double value) { return anchored ? Json(value) : Json(); };
    Json json{{"exposure_s", seconds(point.exposure_s.value)},
              {"exposure_s_low", seconds(point.exposure_s.low)},
              {"exposure_s_high", seconds(point.exposure_s.high)}};
    tell_black_stops(json, point.proof.black_stops, point.exposure_s, anchored);
    json.update(
        {{"grade", point.found.grade},
         {"restrainer_ml_l", point.found.restrainer_ml_l},
         {"develop_s", point.proof.steps.develop.time_s},
         {"bleach_s", point.bleach_s.value},
         {"bleach_s_low", point.bleach_s.low},
         {"bleach_s_high", point.bleach_s.high},
         {"dilution", bleach_bath(printing.pack(), point.recipe).parts},
         {"clearing_percent", point.proof.clearing_percent ? Json(*point.proof.clearing_percent) : Json()},
         {"lightness_error", point.lightness_error.value},
         {"lightness_error_low", point.lightness_error.low},
         {"lightness_error_high", point.lightness_error.high},
         {"lightness_error_after_strip", point.lightness_error_after_strip},
         {"lightness_error_as_described", point.found.lightness_error},
         {"first_sheet_good", point.first_sheet_good}});
    if (is_toned(point.recipe)) json["toner"] = toner_name(point.recipe.toner);
    return json;
}

Json pull_json(const Printing& printing, const StartingPoint& best, const StartRequest& request) {
    const auto pull = moment_to_pull(printing, best);
    if (!pull) return nullptr;
    Json json{{"early_s", pull->bleach_s.low},
              {"likely_s", pull->bleach_s.value},
              {"late_s", pull->bleach_s.high},
              {"border_gain", pull->border_gain},
              {"border_short_of_white", pull->border_ahead},
              {"rule", pull_rule(best.proof.clearing_percent, pull->border_ahead, best.recipe.toner,
                                 printing.pack().edge_fog.is_there())}};
    if (const auto& place = request.telling)
        json["watch"] = {{"left", place->left},
                         {"top", place->top},
                         {"right", place->right},
                         {"bottom", place->bottom},
                         {"gain", place->gain}};
    return json;
}

Json split_json(const Printing& printing, const StartingPoint& best) {
    if (!printing.pack().darkroom.anchored) return nullptr;
    const Seconds time{best.exposure_s.value};
    const auto pair = split_exposures(printing.pack(), printing.paper(), best.found.grade, time);
    if (!pair) return nullptr;
    return {{"soft_grade", pair->soft_grade},
            {"soft_s", pair->soft.value},
            {"hard_grade", pair->hard_grade},
            {"hard_s", pair->hard.value}};
}

Json offers_json(const Printing& printing, const StartingPoints& points) {
    static constexpr std::array kKinds{"strip", "print", "wedge"};
    Json offers = Json::array();
    for (const Offer& offer : points.measure_next)
        offers.push_back(
            {{"kind", kKinds[std::size_t(offer.kind)]},
             {"words", offer.in_words(printing.pack())},
             {"grade", offer.recipe.grade},
             {"restrainer_ml_l", offer.recipe.restrainer_ml_l},
             {"develop_s", offer.recipe.develop_s},
             {"exposure_s", printing.pack().darkroom.anchored ? Json(offer.recipe.exposure.value) : Json()},
             {"bleach_s", offer.recipe.bleach.value},
             {"sheets", offer.sheets},
             {"lightness_error_then", offer.expected_then}});
    return offers;
}

Json proposed_json(const StartRequest& request) {
    if (!request.proposed) return nullptr;
    const auto& [place, stops, gain, without] = *request.proposed;
    return {{"work", name_of(place.kind)},
            {"where", frame_side(place.across, place.down)},
            {"share", request.touched.front().mean},
            {"stops", stops.value},
            {"stops_low", stops.low},
            {"stops_high", stops.high},
            {"lightness_off_there", place.off},
            {"lightness_off_there_then", place.off_then},
            {"gain", gain.value},
            {"gain_low", gain.low},
            {"gain_high", gain.high},
            {"lightness_error_without", without}};
}

Json flash_json(const Printing& printing, const StartingPoint& best) {
    if (!printing.pack().darkroom.anchored) return nullptr;
    const Flash flash = soft_flash(printing.pack(), printing.paper(), best.proof.steps.develop);
    return {{"grade", flash.grade}, {"longest_s", flash.longest.value}};
}

}  // namespace

std::string start_json(const Printing& printing, const StartingPoints& points, const StartRequest& request) {
    Json grades = Json::array();
    for (const auto& point : points.by_grade) grades.push_back(point_json(printing, point));
    const TestStrip strip = test_strip(points.best.exposure_s);
    Json bands = Json::array();
    for (const Seconds time : strip.exposures)
        bands.push_back(printing.pack().darkroom.anchored ? Json(time.value) : Json());
    Json all{
        {"fogproof", version()},
        {"negative", request.negative},
        {"pack", printing.pack().name},
        {"anchored", printing.pack().darkroom.anchored},
        {"zero_of_seconds", zero_of_seconds(printing.pack())},
        {"target", request.target},
        {"warnings", request.warnings},
        {"dry_down", request.dry_down},
        {"best", point_json(printing, points.best)},
        {"local", local_json(printing, points.best.proof, request.touched)},
        {"proposed", proposed_json(request)},
        {"by_grade", grades},
        {"unbleached", points.unbleached ? point_json(printing, *points.unbleached) : Json()},
        {"best_after_strip", points.after_strip ? point_json(printing, *points.after_strip) : Json()},
        {"measure_next", offers_json(printing, points)},
        {"test_strip",
         {{"step_stops", strip.step_stops}, {"exposures_s", bands}, {"where", request.strip.in_words()}}},
        {"target_doubt",
         {{"lights", points.target.lights},
          {"middle", points.target.middle},
          {"darks", points.target.darks}}},
        {"pull", pull_json(printing, points.best, request)},
        {"split_grade", split_json(printing, points.best)},
        {"flash", flash_json(printing, points.best)},
        {"recipes_tried", points.tried}};
    tell_turned(all, request.degrees_turned);
    if (request.seen) all["seen"] = seen_json(*request.seen, points.best, printing.pack().darkroom.enlarger);
    if (request.edges) all["edge_fog"] = edge_advice_json(*request.edges);
    return json_text(all);
}

std::string rescue_json(const Printing& printing, const Proof& made, const Rescue& rescue,
                        const StartRequest& request) {
    const auto row = [](const RescueStep& step) {
        return Json{{"redevelop_s", step.redevelop.value},
                    {"border_density", step.border.value},
                    {"density_lightest", step.proof.extent.lightest.value},
                    {"density_darkest", step.proof.extent.darkest.value},
                    {"lightness_error", step.off}};
    };
    Json best = row(rescue.best);
    best["redevelop_s_low"] = rescue.redevelop_s.low;
    best["redevelop_s_high"] = rescue.redevelop_s.high;
    Json steps = Json::array();
    for (const auto& step : rescue.steps) steps.push_back(row(step));
    Json all{{"fogproof", version()},
             {"negative", request.negative},
             {"pack", printing.pack().name},
             {"target", request.target},
             {"print", proof_json(made, printing.pack().darkroom.anchored)},
             {"bleach_s", rescue.best.proof.bleach.value},
             {"warnings", request.warnings},
             {"steps", steps},
             {"best", best}};
    tell_turned(all, request.degrees_turned);
    return json_text(all);
}

}  // namespace fogproof::report
