// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// The pack with another Schwarzschild exponent. Times like those that were measured keep the light that they
/// gave: the geometric mean of the exposures of its readings, or the time of its speed point where it keeps
/// no readings. A pack without seconds gets the exponent alone.
[[nodiscard]] Pack with_reciprocity(Pack, double exponent);

}  // namespace fogproof::pack
