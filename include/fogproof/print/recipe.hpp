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
    std::optional<double> grade;  ///< -1 (00) to 6
    std::variant<Stops, Seconds> amount = Stops{};
    /// Told for this print: what the recipe says of its head does not hold for it. No file keeps it, and it
    /// makes no other exposure.
    bool is_todays = false;
    friend bool operator==(const PlannedExposure& a, const PlannedExposure& b) {
        return a.grade == b.grade && a.amount == b.amount;
    }
};

struct Recipe {
    std::vector<PlannedExposure> exposures{PlannedExposure{}};  ///< 1 to 8; seconds from 0.05 to 3600
    std::vector<PlannedExposure> flashes;  ///< without the negative; up to 8, 0.01 to 600 s each
    /// The head for which the seconds hold: long side of print over long side of frame (0.05 to 100),
    /// f-number (1 to 128), stops over the light of the pack's readings (-3 to 3). A magnification or
    /// f-number that is not told is that of the enlarger as it is set; a light that is not told beside one of
    /// them is 0. None told: the seconds hold as the enlarger is set.
    std::optional<double> magnification, f_number, light_stops;
    double restrainer_ml_l = 0.0;     ///< 0 to 500
    std::optional<double> develop_s;  ///< 0 to 1800; the pack's nominal time if absent
    std::optional<double> develop_c;  ///< 10 to 35; the pack's nominal one if absent
    std::variant<Seconds, ClearingPercent> bleach = Seconds{0.0};  ///< 0 to 7200 s, or 0 to 1000 %
    std::optional<double> bleach_parts;  ///< N of 1+N, 0 to 1000; the pack's if absent
    std::optional<double> bleach_c;      ///< 10 to 35; the pack's if absent
    std::optional<double>
        redevelop_s;            ///< 0 to 1800, in the second developer or the toner; its usual time if absent
    Toner toner = Toner::none;  ///< in place of a second developer
    std::vector<LocalWork> local;  ///< in the order in which it is done; up to 8
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
