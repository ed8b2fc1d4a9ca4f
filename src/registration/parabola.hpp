// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where something lies between whole pixels.
#pragma once

#include <algorithm>

#include "fogproof/rooms.hpp"

namespace fogproof::registration {

/// The extremum of a parabola through three values one apart, from the middle one; at most half a step away.
[[nodiscard]] inline double extremum_between(double before, double here, double after) {
    const double bend = before + after - 2 * here;
    return bend == 0 ? 0 : std::clamp((before - after) / (2 * bend), -0.5, 0.5);
}

}  // namespace fogproof::registration
