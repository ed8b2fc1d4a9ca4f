// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The moment to pull, as pictures: one print taken out of the bleach too early, in time and too late.
#pragma once

#include <string>
#include <vector>

#include "choose/starting_point.hpp"
#include "fogproof/rooms.hpp"
#include "proof/worked_grid.hpp"

namespace fogproof::proof {

/// A grid of one row over the bleach time, exposure and filter those of the point: from half to double the
/// told time, or over times that are asked for and the told one among them. Throws Error(Fault::config) for a
/// point without bleach and for a pack without an anchor.
[[nodiscard]] GridRequest bleach_ladder(const Printing&, const StartingPoint&, const std::string& negative,
                                        std::vector<Seconds> times = {});

/// A grid of one row over the redevelopment of a print of the point that was left in the bleach for a time.
/// Throws Error(Fault::config) for a pack without an anchor.
[[nodiscard]] GridRequest rescue_ladder(const Printing&, const StartingPoint&, Seconds bleached,
                                        const std::string& negative);

}  // namespace fogproof::proof
