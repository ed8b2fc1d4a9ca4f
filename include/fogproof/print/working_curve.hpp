// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The characteristic curve of one way of working on a pack, with how roughly it is known.
#pragma once

#include <optional>
#include <vector>

#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// log10 of the seconds through clear film at which a curve is given: -3 to 3 in steps of 0.05.
inline constexpr double kFirstLogSeconds = -3, kLogSecondsStep = 0.05;
inline constexpr std::size_t kCurvePoints = 121;

/// A value and the ends of its 95 % interval; both ends are the value where nothing is doubtful.
struct Interval {
    double value, low, high;
};

struct WorkingCurve {
    std::vector<double> log_seconds;
    std::vector<Interval> density;      ///< visual, of the finished print
    std::optional<Interval> iso_range;  ///< nothing where the curve is too short for one
    Interval paper_white;               ///< visual density of the sheet only fixed
    Interval fog;  ///< visual density above that of the unexposed sheet treated by the recipe
};

/// Intervals carry what the pack's numbers leave open, and on densities its scatters.
/// Exposures of the recipe count by their proportions, and the seconds are those of the first, at the head
/// setting in use. Without an
/// anchor the seconds are those of the pack's assumed speed. Throws what print_steps() throws.
[[nodiscard]] WorkingCurve working_curve(const Pack&, const Recipe&);

/// ISO 6846 points of the curve alone, on any state of the paper.
[[nodiscard]] std::optional<PaperNumbers> working_numbers(const Pack&, const PaperModel&, const Recipe&);

}  // namespace fogproof::print
