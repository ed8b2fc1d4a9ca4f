// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <cmath>
#include <nlohmann/json.hpp>

#include "fogproof/base/version.hpp"
#include "fogproof/calibrate/next_strip.hpp"
#include "fogproof/pack/schema.hpp"
#include "fogproof/report/pack_report.hpp"
#include "report/json_text.hpp"
#include "report/pack_summary.hpp"

namespace fogproof {
namespace {

using Json = nlohmann::ordered_json;

// Millionths are far below what paper or densitometer hold; more digits are noise of the arithmetic.
double kept(double value) {
    return std::round(value * 1e6) / 1e6 + 0.0;
}

Json maybe(const std::optional<double>& value) {
    return value ? Json(*value) : Json();
}

Json number_json(const std::string& name, const Json& value, std::string_view unit, const Knowledge& known) {
    return {{"name", name},
            {"value", value},
            {"unit", unit},
            {"sd", maybe(known.deviation)},
            {"from", origin_words()[std::size_t(known.origin)]}};
}

Json numbers_json(const Pack& pack) {
    Json numbers = Json::array();
    for (const auto& row : pack_numbers())
        numbers.push_back(number_json(row.name(), row.of(pack), row.unit, pack.known(row.name())));
    for (const auto& filter : pack.filters)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(filter, row.key);
            numbers.push_back(number_json(name, row.of(filter), row.unit, pack.known(name)));
        }
    return numbers;
}

Json white_json(const White& white) {
    return {{"density", kept(white.density.value)},
            {"lightness", kept(white.lab.l)},
            {"a", kept(white.lab.a)},
            {"b", kept(white.lab.b)}};
}

Json whites_json(const PackSummary& summary) {
    Json restrained = Json::array(), bleached = Json::array();
    for (const auto& row : summary.restrained) {
        Json entry{{"restrainer_ml_l", row.restrainer_ml_l}, {"stops_lost", kept(row.stops_lost)}};
        entry.update(white_json(row.white));
        restrained.push_back(std::move(entry));
    }
    for (const auto& row : summary.bleached) {
        Json entry{{"clearing_percent", row.clearing_percent},
                   {"bleach_s", kept(row.seconds.value)},
                   {"bleach_s_low", kept(row.seconds.low)},
                   {"bleach_s_high", kept(row.seconds.high)}};
        entry.update(white_json(row.white));
        bleached.push_back(std::move(entry));
    }
    return {{"only_fixed", white_json(summary.fixed_only)},
            {"developed_blank", white_json(summary.blank)},
            {"restrained", restrained},
            {"bleached", bleached}};
}

Json range(const std::optional<double>& iso_range) {
    return iso_range ? Json(kept(*iso_range)) : Json();
}

Json grades_json(const PackSummary& summary) {
    Json grades = Json::array();
    for (const auto& row : summary.grades)
        grades.push_back({{"grade", row.grade},
                          {"iso_range_fresh", range(row.fresh)},
                          {"iso_range", range(row.fogged)},
                          {"iso_range_cleared", range(row.cleared)}});
    return grades;
}

void add_interval(Json& entry, const std::string& name, const Interval& interval) {
    entry[name] = kept(interval.value);
    entry[name + "_low"] = kept(interval.low);
    entry[name + "_high"] = kept(interval.high);
}

Json curve_json(const LabelledCurve& labelled) {
    const WorkingCurve& curve = labelled.curve;
    Json density = Json::array(), low = Json::array(), high = Json::array();
    for (const Interval& at : curve.density) {
        density.push_back(kept(at.value));
        low.push_back(kept(at.low));
        high.push_back(kept(at.high));
    }
    Json entry{{"recipe", labelled.label},
               {"log_exposure", curve.log_seconds},
               {"density", density},
               {"density_low", low},
               {"density_high", high}};
    if (curve.iso_range)
        add_interval(entry, "iso_range", *curve.iso_range);
    else
        entry["iso_range"] = nullptr;
    add_interval(entry, "paper_white", curve.paper_white);
    add_interval(entry, "fog", curve.fog);
    return entry;
}

}  // namespace

std::string pack_json(const Pack& pack, std::span<const LabelledCurve> curves,
                      const std::vector<std::string>& warnings) {
    const PackSummary summary = pack_summary(pack);
    Json recipes = Json::array();
    for (const auto& curve : curves) recipes.push_back(curve_json(curve));
    Json measure;
    if (const auto next = next_strip(pack))
        measure = {{"filter", next->grade ? Json(*next->grade) : Json()},
                   {"restrainer_ml_l", next->restrainer_ml_l},
                   {"bleach_s", next->bleach_s},
                   {"doubt_now", next->doubt_now},
                   {"doubt_then", next->doubt_then}};
    Json all{{"fogproof", version()},
             {"pack", pack.name},
             {"contrast", contrast_words()[std::size_t(pack.contrast)]},
             {"surface", surface_words()[std::size_t(pack.surface)]},
             {"anchored", pack.anchored},
             {"paper_white", kept(summary.fixed_only.density.value)},
             {"fog", kept(summary.blank.density.value - summary.fixed_only.density.value)},
             {"black", summary.black.value},
             {"speed_s", pack.anchored ? Json(kept(summary.speed_s)) : Json()},
             {"iso_speed", summary.iso_speed ? Json(*summary.iso_speed) : Json()},
             {"whites", whites_json(summary)},
             {"grades", grades_json(summary)},
             {"recipes", recipes},
             {"measure_next", measure},
             {"warnings", warnings},
             {"numbers", numbers_json(pack)}};
    return json_text(all);
}

}  // namespace fogproof
