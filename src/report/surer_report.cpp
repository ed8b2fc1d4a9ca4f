// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/surer_report.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "report/columns.hpp"
#include "report/json_text.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

double stops_either_way(const Interval& seconds) {
    return std::log2(seconds.high / seconds.low) / 2;
}

std::string exposure_words(const NegativeOnPack::Answer& answer) {
    const Interval& seconds = answer.point.exposure_s;
    return (answer.anchored ? shown_seconds(seconds) : "no anchor, in stops") + ", +/- " +
           fixed(stops_either_way(seconds), 1) + " stop";
}

std::string line(const std::string& name, const char* when, const NegativeOnPack::Answer& answer) {
    return left("  " + name, 20) + left(when, 8) +
           left(answer.graded ? "" : "grade " + grade_name(answer.point.found.grade), 11) +
           left(exposure_words(answer), 38) + shown_distance(answer.point.lightness_error) + "\n";
}

nlohmann::ordered_json answer_json(const NegativeOnPack::Answer& answer) {
    const StartingPoint& point = answer.point;
    const auto seconds = [&](double value) {
        return answer.anchored ? nlohmann::ordered_json(kept(value)) : nlohmann::ordered_json();
    };
    return {{"exposure_s", seconds(point.exposure_s.value)},
            {"exposure_s_low", seconds(point.exposure_s.low)},
            {"exposure_s_high", seconds(point.exposure_s.high)},
            {"exposure_stops_either_way", kept(stops_either_way(point.exposure_s))},
            {"grade", point.found.grade},
            {"lightness_error", kept(point.lightness_error.value)},
            {"lightness_error_low", kept(point.lightness_error.low)},
            {"lightness_error_high", kept(point.lightness_error.high)}};
}

}  // namespace

std::string surer_text(std::span<const NegativeOnPack> negatives) {
    if (negatives.empty()) return {};
    std::string text = "\n" + left("Negatives", 39) + left("exposure, 95 % in brackets", 38) +
                       "first sheet expected off by\n";
    for (const NegativeOnPack& negative : negatives) {
        text += line(negative.name, "before", negative.before);
        text += line("", "now", negative.now);
    }
    return text;
}

nlohmann::ordered_json surer_json(std::span<const NegativeOnPack> negatives) {
    auto all = nlohmann::ordered_json::array();
    for (const NegativeOnPack& negative : negatives)
        all.push_back({{"negative", negative.name},
                       {"before", answer_json(negative.before)},
                       {"now", answer_json(negative.now)}});
    return all;
}

}  // namespace fogproof::report
