// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/json_text.hpp"

#include <cmath>

#include "base/markup.hpp"

namespace fogproof::report {
namespace {

void make_plain(nlohmann::ordered_json& part) {
    if (part.is_string()) part = plain_line(part.get_ref<const std::string&>());
    if (part.is_structured())
        for (auto& inner : part) make_plain(inner);
}

}  // namespace

std::string json_text(nlohmann::ordered_json answer) {
    make_plain(answer);
    return answer.dump(2) + "\n";
}

void tell_black_stops(nlohmann::ordered_json& json, double stops, const Interval& exposure_s, bool anchored) {
    const auto end = [&](double seconds) {
        return anchored ? nlohmann::ordered_json()
                        : nlohmann::ordered_json(stops + std::log2(seconds / exposure_s.value));
    };
    json["full_black_stops"] = stops;
    json["full_black_stops_low"] = end(exposure_s.low);
    json["full_black_stops_high"] = end(exposure_s.high);
}

double kept(double value) {
    return std::round(value * 1e6) / 1e6 + 0.0;
}

}  // namespace fogproof::report
