// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The moment to pull a print out of the bleach, and what on it tells that the moment has come.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "base/interpolation.hpp"
#include "choose/starting_point.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// A print this factor of its time too short or too long in the bath looks visibly different. Judgement.
inline constexpr double kPullFactor = 1.25;

struct Pull {
    Interval bleach_s;    ///< likely time, early and late
    MonotoneCurve gain;   ///< L* that a tone wins between too short and too long, by negative density
    double border_gain;   ///< the same for the unexposed border
    double border_ahead;  ///< L* that the border still lacks of fixed-only white when it is time
};

/// Nothing for a print that is not bleached.
[[nodiscard]] std::optional<Pull> moment_to_pull(const Printing&, const StartingPoint&);

/// A square of the picture, as shares of its width and height.
struct TellingPlace {
    double left, top, right, bottom;
    double gain;  ///< mean L* gained there between too short and too long

    /// "the area from 30 to 40 % of the width and 20 to 35 % of the height".
    [[nodiscard]] std::string in_words() const;
};

/// Where the print changes most about the right moment, and most evenly. Looks at squares of a tenth of the
/// longer side. Densities row by row.
[[nodiscard]] TellingPlace telling_place(const Pull&, int width, int height,
                                         std::span<const NegativeDensity>);

}  // namespace fogproof::choose
