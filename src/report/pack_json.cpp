// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "fit/next_strip.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"
#include "proof/pack_summary.hpp"
#include "proof/pack_verdict.hpp"
#include "report/departure_words.hpp"
#include "report/json_text.hpp"
#include "report/pack_report.hpp"
#include "report/verdict_words.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

Json number_json(const std::string& name, const Json& value, std::string_view unit, const Knowledge& known) {
    return {{"name", name},
            {"value", value},
            {"unit", unit},
            {"sd", or_null(known.deviation)},
            {"from", origin_words()[std::size_t(known.origin)]}};
}

Json numbers_json(const Pack& pack) {
    Json numbers = Json::array();
    for (const auto& row : pack_numbers())
        if (!is_departure(row) && (is_listed(pack, row) || is_of_toner(row)))
            numbers.push_back(number_json(row.name(), row.of(pack), row.unit, pack.known(row.name())));
    for (const auto& filter : pack.filters)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(filter, row.key);
            numbers.push_back(number_json(name, row.of(filter), row.unit, pack.known(name)));
        }
    return numbers;
}

void add_interval(Json& entry, const std::string& name, const Interval& interval) {
    entry[name] = kept(interval.value);
    entry[name + "_low"] = kept(interval.low);
    entry[name + "_high"] = kept(interval.high);
}

Json white_json(const White& white) {
    Json entry = Json::object();
    add_interval(entry, "density", white.density);
    entry.update({{"lightness", kept(white.lab.l)}, {"a", kept(white.lab.a)}, {"b", kept(white.lab.b)}});
    return entry;
}

Json whites_json(const PackSummary& summary) {
    Json restrained = Json::array(), bleached = Json::array();
    for (const auto& row : summary.restrained) {
        Json entry{{"restrainer_ml_l", row.restrainer_ml_l}};
        add_interval(entry, "stops_lost", row.stops_lost);
        entry.update(white_json(row.white));
        restrained.push_back(std::move(entry));
    }
    for (const auto& row : summary.bleached) {
        Json entry{{"clearing_percent", row.clearing_percent}};
        add_interval(entry, "bleach_s", row.seconds);
        entry.update(white_json(row.white));
        bleached.push_back(std::move(entry));
    }
    return {{"only_fixed", white_json(summary.fixed_only)},
            {"developed_blank", white_json(summary.blank)},
            {"restrained", restrained},
            {"bleached", bleached}};
}

void add_range(Json& entry, const std::string& name, const std::optional<Interval>& range) {
    if (range)
        add_interval(entry, name, *range);
    else
        entry[name] = nullptr;
}

Json grades_json(const PackSummary& summary) {
    Json grades = Json::array();
    for (const auto& row : summary.grades) {
        Json entry{{"grade", row.grade}, {"filter", grade_name(row.grade)}};
        add_range(entry, "iso_range_fresh", row.fresh);
        add_range(entry, "iso_range", row.fogged);
        add_range(entry, "iso_range_cleared", row.cleared);
        grades.push_back(std::move(entry));
    }
    return grades;
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
    add_range(entry, "iso_range", curve.iso_range);
    add_interval(entry, "paper_white", curve.paper_white);
    add_interval(entry, "fog", curve.fog);
    return entry;
}

}  // namespace

std::string pack_json(const Pack& pack, std::span<const LabelledCurve> curves,
                      const std::vector<std::string>& warnings) {
    const WorkedPacks worked(pack);
    const PackSummary summary = pack_summary(worked);
    const PackVerdict verdict = pack_verdict(summary);
    Json recipes = Json::array();
    for (const auto& curve : curves) recipes.push_back(curve_json(curve));
    Json measure, pieces = Json::array();
    constexpr std::array kKinds{"wedge", "test strip", "print"};
    for (const NextStrip& next : next_pieces(worked)) {
        pieces.push_back({{"piece", kKinds.at(std::size_t(next.kind))},
                          {"filter", next.grade ? Json(*next.grade) : Json()},
                          {"restrainer_ml_l", next.restrainer_ml_l},
                          {"bleach_s", next.bleach_s},
                          {"doubt_now", next.doubt_now},
                          {"doubt_then", next.doubt_then}});
        // Readers of this key know wedges alone.
        if (next.kind == NextStrip::Kind::wedge) measure = pieces.back(), measure.erase("piece");
    }
    Json all{{"fogproof", version()},
             {"pack", pack.name},
             {"contrast", contrast_words()[std::size_t(pack.contrast)]},
             {"surface", surface_words()[std::size_t(pack.surface)]},
             {"restrainer_agent", agent_words()[std::size_t(pack.darkroom.restrainer_agent)]},
             {"head", head_words()[std::size_t(pack.darkroom.head)]},
             {"anchored", pack.darkroom.anchored},
             {"zero_of_seconds", zero_of_pack(pack)},
             {"paper_white", kept(summary.fixed_only.density.value)},
             {"fog", kept(summary.blank.density.value - summary.fixed_only.density.value)},
             {"black", kept(summary.black.value)},
             {"black_low", kept(summary.black.low)},
             {"black_high", kept(summary.black.high)},
             {"black_cleared", summary.black_cleared ? Json(kept(summary.black_cleared->value)) : Json()},
             {"black_cleared_low", summary.black_cleared ? Json(kept(summary.black_cleared->low)) : Json()},
             {"black_cleared_high", summary.black_cleared ? Json(kept(summary.black_cleared->high)) : Json()},
             {"full_scale_prints", answer_words(verdict.full_scale)},
             {"deep_blacks", answer_words(verdict.deep_blacks)},
             {"speed_s", pack.darkroom.anchored ? Json(kept(summary.speed_s.value)) : Json()},
             {"speed_s_low", pack.darkroom.anchored ? Json(kept(summary.speed_s.low)) : Json()},
             {"speed_s_high", pack.darkroom.anchored ? Json(kept(summary.speed_s.high)) : Json()},
             {"iso_speed", summary.iso_speed ? Json(*summary.iso_speed) : Json()},
             {"whites", whites_json(summary)},
             {"grades", grades_json(summary)},
             {"recipes", recipes},
             {"measure_next", measure},
             {"measure_next_pieces", pieces},
             {"warnings", warnings},
             {"numbers", numbers_json(pack)},
             {"departure", departure_json(pack)}};
    return json_text(all);
}

}  // namespace fogproof::report
