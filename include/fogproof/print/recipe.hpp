// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer intends for one print, as it is written down: a recipe. It becomes print steps once the
// pack (filters, clearing time) and a starting exposure are known.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/print/local_work.hpp"
#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// One exposure through one filter. Without a grade the paper is graded, or used without a filter at grade 2.
struct PlannedExposure {
    std::optional<double> grade;
    std::variant<Stops, Seconds> amount = Stops{};
    bool is_todays = false;  ///< seconds for the enlarger as it is set, whatever the recipe says of its own
    friend bool operator==(const PlannedExposure&, const PlannedExposure&) = default;
};

struct Recipe {
    std::vector<PlannedExposure> exposures{PlannedExposure{}};
    std::vector<PlannedExposure> flashes;  ///< without the negative; seconds only
    /// For which the seconds hold: long side of print over long side of frame, f-number, and the light over
    /// that of the pack's readings. Not told: for whatever the enlarger is set to.
    std::optional<double> magnification, f_number, light_stops;
    double restrainer_ml_l = 0.0;
    std::optional<double> develop_s;  ///< the pack's nominal time if absent
    std::optional<double> develop_c;
    std::variant<Seconds, ClearingPercent> bleach = Seconds{0.0};
    std::optional<double> bleach_parts;  ///< N of 1+N; the pack's if absent
    std::optional<double> bleach_c;
    std::optional<double> redevelop_s;  ///< in the second developer or the toner; its usual time if absent
    Toner toner = Toner::none;          ///< in place of a second developer
    std::vector<LocalWork> local;       ///< in the order in which it is done
    friend bool operator==(const Recipe&, const Recipe&) = default;
};

/// Time in the second developer or the toner.
[[nodiscard]] Seconds redevelopment_time(const Recipe&);
/// Whether the recipe tones at all.
[[nodiscard]] bool is_toned(const Recipe&);

/// Lowest and highest value allowed for each part of a recipe, checked wherever a recipe enters.
/// Throws Error(Fault::usage) with `place` in front.
void check(const Recipe&, const std::string& place);

}  // namespace fogproof::print
