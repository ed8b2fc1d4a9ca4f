// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much surer a fit has made the prints of some negatives.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>

#include "choose/starting_point.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// One negative on the pack before the fit and now.
struct NegativeOnPack {
    std::string name;
    struct Answer {
        StartingPoint point;
        bool anchored;  ///< else its seconds are those of a guess and only their spread counts
        bool graded;    ///< paper without filters
    } before, now;
};

/// A table: recipe, exposure with its 95 %, how far the first sheet is expected off; before and now.
[[nodiscard]] std::string surer_text(std::span<const NegativeOnPack>);
[[nodiscard]] nlohmann::ordered_json surer_json(std::span<const NegativeOnPack>);

}  // namespace fogproof::report
