// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "bleach/mixing.hpp"
#include "fogproof/print/print_steps.hpp"
#include "report/edge_fog_words.hpp"
#include "report/json_text.hpp"
#include "report/turned_words.hpp"
#include "report/work_sheets.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

Json print_json(const SessionPrint& listed, const Pack& pack, const WorkTerms& terms) {
    const SessionPrint::Numbers& print = listed.numbers;
    const auto seconds = [&](double value) { return pack.darkroom.anchored ? Json(value) : Json(); };
    const DilutedBath developer = diluted(terms.litres, terms.developer_parts, print.restrainer_ml_l);
    Json json{{"negative", listed.name},
              {"target", listed.wanted},
              {"exposure_s", seconds(print.exposure_s.value)},
              {"exposure_s_low", seconds(print.exposure_s.low)},
              {"exposure_s_high", seconds(print.exposure_s.high)}};
    tell_black_stops(json, print.black_stops, print.exposure_s, pack.darkroom.anchored);
    json.update({{"grade", print.grade},
                 {"restrainer_ml_l", print.restrainer_ml_l},
                 {"develop_s", print.develop_s},
                 {"developer",
                  {{"concentrate_ml", developer.concentrate_ml},
                   {"restrainer_ml", developer.additive_ml},
                   {"water_ml", developer.water_ml}}},
                 {"bleach_s", print.bleach_s.value},
                 {"bleach_s_low", print.bleach_s.low},
                 {"bleach_s_high", print.bleach_s.high},
                 {"bleach_s_alike", {print.latitude.shortest.value, print.latitude.longest.value}},
                 {"silver_g", print.silver_g},
                 {"lightness_error", print.lightness_error.value},
                 {"lightness_error_low", print.lightness_error.low},
                 {"lightness_error_high", print.lightness_error.high},
                 {"lightness_error_after_strip", print.error_after_strip},
                 {"first_sheet_good", print.first_sheet_good},
                 {"test_strip", print.cost.strip},
                 {"sheets", print.cost.expected},
                 {"warnings", listed.warnings}});
    tell_turned(json, print.degrees_turned);
    if (print.edges) json["edge_fog"] = edge_advice_json(*print.edges);
    return json;
}

Json batch_json(const SessionBatch& batch, const std::vector<SessionPrint>& prints, const WorkTerms& terms) {
    const BleachBath& bath = prints[batch.prints.front()].numbers.bath;
    const DilutedBath mixed = diluted(terms.litres, bath.parts);
    Json names = Json::array();
    for (const std::size_t print : batch.prints) names.push_back(prints[print].name);
    return {
        {"negatives", names},         {"group", batch.group},       {"bath", batch.bath},
        {"fresh", batch.fresh},       {"dilution", bath.parts},     {"concentrate_ml", mixed.concentrate_ml},
        {"water_ml", mixed.water_ml}, {"time_s", batch.time.value}, {"time_now_s", batch.now.value}};
}

}  // namespace

std::string plan_json(const std::vector<SessionPrint>& prints, const Session& session, const Pack& pack,
                      const WorkTerms& terms) {
    Json all_prints = Json::array(), batches = Json::array();
    double sheets = 0;
    for (const auto& print : prints) {
        all_prints.push_back(print_json(print, pack, terms));
        sheets += print.numbers.cost.expected;
    }
    for (const auto& batch : session.batches) batches.push_back(batch_json(batch, prints, terms));
    const Json all{{"fogproof", version()},
                   {"pack", pack.name},
                   {"anchored", pack.darkroom.anchored},
                   {"litres", terms.litres},
                   {"alike", terms.alike},
                   {"sheets", sheets},
                   {"sheets_left", terms.sheets_left ? Json(*terms.sheets_left) : Json()},
                   {"prints", all_prints},
                   {"session",
                    {{"groups", session.groups},
                     {"baths", session.baths},
                     {"bleaching_s", session.total.value},
                     {"loads", batches}}}};
    return json_text(all);
}

}  // namespace fogproof::report
