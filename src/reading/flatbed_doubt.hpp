// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far all readings off a flatbed may be off together, which no number of them averages out.
#pragma once

#include <cstddef>
#include <span>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::reading {

/// Tells it with every row (common_error, dark_error, instrument "flatbed"). A scan without a patch of known
/// density takes its full scale for density 0; without a second, dark one the scanner's stray light stays in,
/// which makes blacks read too thin.
void tell_flatbed_doubt(std::span<Reading>, std::size_t known_patches);

}  // namespace fogproof::reading
