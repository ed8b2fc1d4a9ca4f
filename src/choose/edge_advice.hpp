// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the fog of a sheet's edges costs a picture, and what would save some of it, as figures.
#pragma once

#include <optional>

#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct EdgeAdvice {
    /// rms L* over the picture against the same print without fog of the edges; 95 % of what is known of
    /// that fog.
    Interval lost{};
    double lights_lost = 0;  ///< L* of the picture's lights where they would be fogged most
    /// The least margin at which the lights lose no more than kSeenInLights anywhere, and what is left.
    struct Margin {
        double mm, picture_width, picture_height, lost;
    };
    std::optional<Margin> margin{};  ///< where the sheet has such a margin and the picture lies nearer
    struct Turn {
        int quarter_turns;
        double lost;
    };
    std::optional<Turn>
        turn{};  ///< where turning the sheet gains something worth it and keeps the picture's size
};

/// L*; an eye tells about one apart on a print's lights. Common practice, no source.
inline constexpr double kSeenInLights = 1;

}  // namespace fogproof::choose
