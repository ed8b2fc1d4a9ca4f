// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/print_words.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "pack/grade_words.hpp"
#include "print/recipe_head.hpp"
#include "print/recipe_parts.hpp"
#include "print/toner_words.hpp"
#include "report/json_text.hpp"
#include "report/local_words.hpp"
#include "report/proof_json.hpp"
#include "report/shown.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

constexpr double kSameTemperature = 0.05;  // C

using Json = nlohmann::ordered_json;

}  // namespace

std::string print_sentence(const Printing& printing, const Proof& proof) {
    std::string text = shown_exposure(proof, printing.pack().darkroom.anchored);
    // Of several exposures each tells its own.
    if (const auto& only = proof.recipe.exposures.front();
        proof.exposures.size() == 1 && only.grade && printing.pack().contrast == Contrast::variable)
        text += " at grade " + grade_name(*only.grade);
    text += shown_flashes(proof) + ", development " + shown(Seconds{proof.steps.develop.time_s});
    if (const double celsius = proof.steps.develop.temperature_c;
        std::abs(celsius - printing.pack().development.nominal_c) > kSameTemperature)
        text += " at " + decimal(celsius, 1) + " C";
    if (proof.steps.develop.restrainer_ml_l > 0)
        text += " with restrainer " + decimal(proof.steps.develop.restrainer_ml_l, 1) + " ml/L";
    text += ", " + shown_bleach(proof);
    if (proof.clearing_percent && *proof.clearing_percent > 0)
        text += " (" + fixed(*proof.clearing_percent, 0) + " % of clearing)";
    if (is_toned(proof.recipe))
        text += ", " + toner_name(proof.recipe.toner) + " toner " + shown(redevelopment_time(proof.recipe));
    else if (redevelopment_time(proof.recipe).value > 0)
        text += ", redeveloped " + shown(redevelopment_time(proof.recipe));
    for (std::size_t i = 0; i < proof.recipe.local.size(); ++i)
        text += ", " + local_words(printing, proof, i);
    return text + "; density " + shown(proof.extent.lightest) + " to " + shown(proof.extent.darkest) + "; " +
           fixed(proof.lightness_error, 1) +
           " L* (rms) off fresh paper, if the paper is exactly as the pack says";
}

std::vector<std::string> flat_warnings(const Proof& proof) {
    constexpr double kFlat = 0.05;
    const double range = (proof.extent.darkest - proof.extent.lightest).value;
    if (range >= kFlat) return {};
    return {"all tones of the picture print within " + fixed(range, 2) +
            " D of each other: either the exposure is far off, or the scan is read wrongly (--encoding, "
            "--clear)"};
}

void require_exposable(const Printing& printing, std::span<const Proof> proofs, const std::string& scan) {
    if (!printing.pack().darkroom.anchored) return;
    const auto out_of_reach = [](const Seconds& time) {
        return !(time.value >= kExposureLimits.minimum && time.value <= kExposureLimits.maximum);
    };
    const auto first = [&](const Proof& proof) {
        return std::ranges::find_if(proof.exposures, out_of_reach);
    };
    const auto exposable = [&](const Proof& proof) { return first(proof) == proof.exposures.end(); };
    if (proofs.empty() || std::ranges::any_of(proofs, exposable)) return;
    throw Error(
        Fault::data, scan, "its exposure comes out as " + decimal(first(proofs.front())->value, 2) + " s",
        "0.05 to 3600 s; if the scan is too dark or too light, mend it or --clear and --encoding; else "
        "ask for other stops");
}

Description print_description(const Printing& printing, const Proof& proof,
                              const std::filesystem::path& folder) {
    Recipe worked = proof.recipe;
    if (printing.pack().darkroom.anchored)
        for (std::size_t i = 0; i < worked.exposures.size(); ++i)
            worked.exposures[i].amount = proof.exposures[i];
    worked.bleach = proof.bleach;
    worked.develop_s = proof.steps.develop.time_s;
    worked.develop_c = proof.steps.develop.temperature_c;
    const BleachBath bath = bleach_bath(printing.pack(), worked);
    worked.bleach_parts = bath.parts;
    worked.bleach_c = bath.temperature_c;
    worked = with_head_of(printing.pack(), std::move(worked));
    return {{"recipe", written(with_masks_as_from(folder, std::move(worked)))}};
}

std::string print_json(const Printing& printing, const Proof& proof, std::span<const Touched> touched,
                       const Json& edge_fog, const std::string& scan, const std::string& picture,
                       const Remarks& remarks) {
    Json print{{"negative", scan}, {"picture", picture}};
    print.update(proof_json(proof, printing.pack().darkroom.anchored));
    print["local"] = local_json(printing, proof, touched);
    if (!edge_fog.is_null()) print["edge_fog"] = edge_fog;
    print["zero_of_seconds"] = zero_of_seconds(printing.pack());
    tell_turned(print, remarks.degrees_turned);
    print["notes"] = remarks.notes;
    print["warnings"] = remarks.warnings;
    return json_text(print);
}

std::string prints_as_json(std::span<const std::string> prints) {
    Json all = Json::array();
    for (const auto& print : prints) all.push_back(Json::parse(print));
    return json_text({{"fogproof", version()}, {"prints", all}});
}

std::string table_sentence(double worst_lightness_error) {
    return "table against model: worst error " + fixed(worst_lightness_error, 5) + " L* over all codes";
}

}  // namespace fogproof::report
