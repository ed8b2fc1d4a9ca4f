// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <nlohmann/json.hpp>

#include "fogproof/base/version.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/report/start_report.hpp"

namespace fogproof {
namespace {

using Json = nlohmann::ordered_json;

Json point_json(const Easel& easel, const StartingPoint& point, double dry_down) {
    const bool anchored = easel.pack().anchored;
    const auto seconds = [&](double value) { return anchored ? Json((1 - dry_down) * value) : Json(); };
    return {{"exposure_s", seconds(point.exposure_s.value)},
            {"exposure_s_low", seconds(point.exposure_s.low)},
            {"exposure_s_high", seconds(point.exposure_s.high)},
            {"full_black_stops", point.proof.black_stops},
            {"grade", point.found.grade},
            {"restrainer_ml_l", point.found.restrainer_ml_l},
            {"develop_s", point.proof.steps.develop.time_s},
            {"bleach_s", point.bleach_s.value},
            {"bleach_s_low", point.bleach_s.low},
            {"bleach_s_high", point.bleach_s.high},
            {"dilution", bleach_bath(easel.pack(), point.recipe).parts},
            {"clearing_percent", point.proof.clearing_percent ? Json(*point.proof.clearing_percent) : Json()},
            {"lightness_error", point.found.lightness_error},
            {"first_sheet_good", point.first_sheet_good}};
}

}  // namespace

std::string start_json(const Easel& easel, const StartingPoints& points, const StartRequest& request) {
    const double dry_down = request.dry_down;
    Json grades = Json::array();
    for (const auto& point : points.by_grade) grades.push_back(point_json(easel, point, dry_down));
    const TestStrip strip = test_strip(points.best.exposure_s);
    Json bands = Json::array();
    for (const Seconds time : strip.exposures)
        bands.push_back(easel.pack().anchored ? Json((1 - dry_down) * time.value) : Json());
    const Json all{
        {"fogproof", version()},
        {"negative", request.negative},
        {"pack", easel.pack().name},
        {"anchored", easel.pack().anchored},
        {"target", request.target},
        {"dry_down", dry_down},
        {"best", point_json(easel, points.best, dry_down)},
        {"by_grade", grades},
        {"unbleached", point_json(easel, points.unbleached, dry_down)},
        {"test_strip",
         {{"step_stops", strip.step_stops}, {"exposures_s", bands}, {"where", request.strip.in_words()}}},
        {"recipes_tried", points.tried}};
    return all.dump(2) + "\n";
}

std::string rescue_json(const Rescue& rescue) {
    const auto row = [](const RescueStep& step) {
        return Json{{"redevelop_s", step.redevelop.value},
                    {"border_density", step.border.value},
                    {"density_lightest", step.proof.extent.lightest.value},
                    {"density_darkest", step.proof.extent.darkest.value},
                    {"lightness_error", step.proof.lightness_error}};
    };
    Json steps = Json::array();
    for (const auto& step : rescue.steps) steps.push_back(row(step));
    return Json{{"bleach_s", rescue.best.proof.bleach.value}, {"steps", steps}, {"best", row(rescue.best)}}
               .dump(2) +
           "\n";
}

}  // namespace fogproof
