// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "report/grid_sheet.hpp"
#include "report/json_text.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

Json axis_json(const Axis& axis) {
    Json values = Json::array();
    for (const AxisValue& value : axis.values) values.push_back(value.told);
    return {{"quantity", name_of(axis)}, {"values", values}};
}

Json cell_json(const Proof& proof, bool anchored) {
    Json exposures = Json::array();
    for (std::size_t i = 0; i < proof.exposures.size(); ++i) {
        Json exposure;
        if (const auto grade = proof.recipe.exposures[i].grade) exposure["grade"] = *grade;
        if (anchored) exposure["exposure_s"] = proof.exposures[i].value;
        exposures.push_back(std::move(exposure));
    }
    Json cell{{"exposures", exposures},
              {"full_black_stops", proof.black_stops},
              {"restrainer_ml_l", proof.steps.develop.restrainer_ml_l},
              {"develop_s", proof.steps.develop.time_s},
              {"bleach_s", proof.bleach.value},
              {"redevelop_s", proof.recipe.redevelop_s},
              {"density_lightest", proof.extent.lightest.value},
              {"density_darkest", proof.extent.darkest.value},
              {"blank_highlights", proof.extent.blank_highlights},
              {"blocked_shadows", proof.extent.blocked_shadows},
              {"lightness_error", proof.lightness_error}};
    cell["clearing_percent"] = proof.clearing_percent ? Json(*proof.clearing_percent) : Json();
    cell["iso_range"] = proof.iso_range > 0 ? Json(proof.iso_range) : Json();
    return cell;
}

}  // namespace

std::string grid_json(const Printing& printing, const WorkedGrid& grid) {
    Json cells = Json::array();
    for (const auto& proof : grid.proofs)
        cells.push_back(cell_json(proof, printing.pack().darkroom.anchored));
    const Json all{
        {"fogproof", version()},
        {"negative", grid.request.negative},
        {"pack", printing.pack().name},
        {"anchored", printing.pack().darkroom.anchored},
        {"zero_of_seconds", zero_of_seconds(printing.pack())},
        {"across", axis_json(grid.request.across)},
        {"down", axis_json(grid.request.down)},
        {"target", {{"grade", printing.target().grade}, {"iso_range", printing.target().iso_range}}},
        {"closest", grid.closest},
        {"notes", grid.request.remarks.notes},
        {"warnings", grid.request.remarks.warnings},
        {"cells", cells}};
    return json_text(all);
}

}  // namespace fogproof::report
