// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/proof_json.hpp"

#include <nlohmann/json.hpp>

#include "print/toner_words.hpp"
#include "report/json_text.hpp"

namespace fogproof::report {

nlohmann::ordered_json proof_json(const Proof& proof, bool anchored) {
    auto exposures = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < proof.exposures.size(); ++i) {
        nlohmann::ordered_json exposure;
        if (const auto grade = proof.recipe.exposures[i].grade) exposure["grade"] = *grade;
        if (anchored) exposure["exposure_s"] = proof.exposures[i].value;
        exposure["full_black_stops"] = proof.own_black_stops[i];
        exposures.push_back(std::move(exposure));
    }
    auto flashes = nlohmann::ordered_json::array();
    for (const auto& planned : proof.recipe.flashes) {
        nlohmann::ordered_json flash;
        if (planned.grade) flash["grade"] = *planned.grade;
        flash["exposure_s"] = std::get<Seconds>(planned.amount).value;
        flashes.push_back(std::move(flash));
    }
    nlohmann::ordered_json json{{"exposures", exposures},
                                {"flashes", flashes},
                                {"full_black_stops", proof.black_stops},
                                {"restrainer_ml_l", proof.steps.develop.restrainer_ml_l},
                                {"develop_s", proof.steps.develop.time_s},
                                {"bleach_s", proof.bleach.value},
                                {"redevelop_s", redevelopment_time(proof.recipe).value},
                                {"density_lightest", proof.extent.lightest.value},
                                {"density_darkest", proof.extent.darkest.value},
                                {"blank_highlights", proof.extent.blank_highlights},
                                {"blocked_shadows", proof.extent.blocked_shadows},
                                {"lightness_error", proof.lightness_error},
                                {"seen_error", proof.seen_error},
                                {"clearing_percent", or_null(proof.clearing_percent)}};
    if (is_toned(proof.recipe)) json["toner"] = toner_name(proof.recipe.toner);
    return json;
}

}  // namespace fogproof::report
