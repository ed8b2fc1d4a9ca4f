// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The range behind the valley, worn into ridges and gullies by running water, and its own shadows.
#pragma once

#include "demo/grid.hpp"
#include "demo/vec.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// Heights above the valley floor in metres. Stream-power erosion (dh/dt = U - K sqrt(area) slope) with the
/// implicit downstream sweep of Braun and Willett (2013), refined over three lattices.
[[nodiscard]] Grid eroded_mountains();

/// For every point of the ground the height below which the sun is hidden by the ground itself.
[[nodiscard]] Grid shadow_heights(const Grid& ground, Vec to_sun);

}  // namespace fogproof::demo
