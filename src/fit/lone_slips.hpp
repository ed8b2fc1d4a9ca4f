// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Single densities that were mistyped, or read on dust, among good ones of their strip.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// A warning for each density that stands out of its neighbours on the strip, as the fit sees them all.
/// Strips with more than a few of them are left to those who look for wrong labels.
[[nodiscard]] std::vector<std::string> lone_slips(std::span<const Reading>, std::span<const double> fitted,
                                                  const Pack& nominal);

}  // namespace fogproof::fit
