// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One row of a readings file as JSON, by the names of its columns.
#pragma once

#include <nlohmann/json.hpp>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "report/json_text.hpp"

namespace fogproof::report {

/// null stands for what the row leaves open.
[[nodiscard]] inline nlohmann::ordered_json reading_json(const Reading& row) {
    return {{"strip", row.strip},
            {"wedge_density", or_null(row.wedge_density)},
            {"exposure_s", or_null(row.exposure_s)},
            {"filter", or_null(row.filter)},
            {"restrainer_ml_l", or_null(row.restrainer_ml_l)},
            {"develop_s", or_null(row.develop_s)},
            {"bleach_s", row.bleach_s},
            {"bleach_parts", or_null(row.bleach_parts)},
            {"redevelop_s", row.redevelop_s},
            {"density", row.density}};
}

}  // namespace fogproof::report
