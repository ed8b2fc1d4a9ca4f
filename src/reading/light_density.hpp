// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Density of light off a scan, and how far such densities scatter when some of them are dust.
#pragma once

#include <algorithm>
#include <cmath>

#include "fogproof/rooms.hpp"

namespace fogproof::reading {

/// Light below it is no more than a scanner's noise.
inline constexpr double kFaintestLight = 1e-5;

[[nodiscard]] inline double density_of_light(double light) {
    return -std::log10(std::max(light, kFaintestLight));
}

/// To the thousandths in which readings are written.
[[nodiscard]] inline double to_thousandths(double density) {
    return std::round(1000 * density) / 1000;
}

}  // namespace fogproof::reading
