// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/turned_words.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/words.hpp"

namespace fogproof::report {

void tell_turned(nlohmann::ordered_json& json, double degrees) {
    if (degrees != 0) json["degrees_turned"] = std::round(degrees * 1000) / 1000;
}

Description turned_description(double degrees) {
    if (degrees == 0) return {};
    return {{"degrees-turned", decimal(degrees, 3)}};
}

}  // namespace fogproof::report
