// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The sky behind a yellow filter: thin high cloud, lighter towards the horizon and the sun.
#pragma once

#include "demo/vec.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// Luminance of the sky in a direction (u, v, 1), in units of white paper square to the sun.
[[nodiscard]] double sky_luminance(double u, double v);
/// Light scattered by the air in front of what lies at a distance: luminance and share that still gets
/// through.
struct Haze {
    double light, through;
};
[[nodiscard]] Haze haze_before(double u, double v, double distance);

}  // namespace fogproof::demo
