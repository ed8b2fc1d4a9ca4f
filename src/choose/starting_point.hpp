// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The answer to "what do I do next, and how sure are you": recipes with the spread that the pack's doubts
// leave.
#pragma once

#include <optional>
#include <vector>

#include "choose/recipe_search.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Two prints whose exposures differ by less look alike to most eyes. Judgement.
inline constexpr double kNoticeableStops = 1.0 / 6;

struct StartingPoint {
    FoundRecipe found;
    Recipe recipe;  ///< at +0 stops: its exposure is the starting one, for what is wanted
    Proof proof;
    Interval exposure_s;      ///< 95 %: the exposure that the real pack will want for the same tones
    Interval bleach_s;        ///< 95 %: the time that reaches the same share of the clearing dose
    double first_sheet_good;  ///< probability that this exposure is within kNoticeableStops of the wanted one
};

/// Half the 95 % interval of the fresh print's L*, at the thin end, in the middle and at the dense end of the
/// frame: the lights stand on a toe that lies under the fog, where nobody can read it.
struct TargetDoubt {
    double darks = 0, middle = 0, lights = 0;
};

struct StartingPoints {
    StartingPoint best;
    std::vector<StartingPoint> by_grade;  ///< the best at each whole grade of the pack
    StartingPoint unbleached;             ///< the best without any bleach
    std::size_t tried;
    TargetDoubt target;
};

[[nodiscard]] StartingPoints starting_points(const Easel&, const Wanted&, const SearchBounds&);

/// A test strip in f-stop steps that covers the interval of an exposure: at most seven exposures, the likely
/// one in the middle.
struct TestStrip {
    double step_stops;
    std::vector<Seconds> exposures;  ///< of each band, in full
};
[[nodiscard]] TestStrip test_strip(const Interval& exposure_s);

}  // namespace fogproof::choose
