// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// White, blank and black as the pack states them were read off paper too: once each, off sheets of their own,
// by the instrument that read everything else. Taken for knowledge of another kind they and the readings
// would lie apart by what one reading errs by, and a fit would lay that on all strips.
#pragma once

#include <span>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// The readings, and behind them one for each density that the pack states.
[[nodiscard]] std::vector<Reading> with_stated_densities(std::span<const Reading>, const Pack&);
/// Whether it is one of these.
[[nodiscard]] bool is_stated_density(const Reading&);

/// The pack as it was before any of these readings: what they state is open.
[[nodiscard]] Pack before_stated_densities(Pack, std::span<const Reading>);

}  // namespace fogproof::fit
