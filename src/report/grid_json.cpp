// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "report/grid_sheet.hpp"
#include "report/json_text.hpp"
#include "report/local_words.hpp"
#include "report/proof_json.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

Json axis_json(const Axis& axis) {
    Json values = Json::array();
    for (const AxisValue& value : axis.values) values.push_back(value.told);
    return {{"quantity", name_of(axis)}, {"values", values}};
}

Json cell_json(const Printing& printing, const Proof& proof, std::span<const Touched> touched) {
    Json cell = proof_json(proof, printing.pack().darkroom.anchored);
    if (!proof.recipe.local.empty()) cell["local"] = local_json(printing, proof, touched);
    cell["iso_range"] = proof.iso_range > 0 ? Json(proof.iso_range) : Json();
    return cell;
}

}  // namespace

std::string grid_json(const Printing& printing, const WorkedGrid& grid, std::span<const Touched> touched,
                      const Json& edge_fog) {
    Json cells = Json::array();
    for (const auto& proof : grid.proofs) cells.push_back(cell_json(printing, proof, touched));
    Json all{{"fogproof", version()},
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
    tell_turned(all, grid.request.remarks.degrees_turned);
    if (!edge_fog.is_null()) all["edge_fog"] = edge_fog;
    return json_text(all);
}

}  // namespace fogproof::report
