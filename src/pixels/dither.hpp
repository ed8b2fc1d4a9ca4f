// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is added before a code of 8 bits is cut off, so that soft passages show no bands.
#pragma once

#include <cstdint>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// From 0 to 1, evenly over any few pixels (a lattice by the plastic number, Roberts 2018). All channels get
/// the same, so that no tint comes of it.
[[nodiscard]] inline float dither(int x, int y) {
    const std::uint32_t turns = std::uint32_t(x) * 3242174889u + std::uint32_t(y) * 2447445414u;
    return float(turns >> 8) * 0x1p-24f;
}

}  // namespace fogproof::pixels
