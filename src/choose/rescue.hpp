// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print left too long in the bleach and not yet fixed again: what redevelopment brings back, fog included.
#pragma once

#include <vector>

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct RescueStep {
    Seconds redevelop;
    Proof proof;
    PrintDensity border;  ///< the unexposed border: fog comes back with the picture
};

/// A print as it was made, but for its bleach, which was overdone: redeveloped for each of the usual times,
/// and for the time whose print comes closest to the fresh one.
struct Rescue {
    std::vector<RescueStep> steps;  ///< 0, 5, 10, 20, 40, 80, 160 s
    RescueStep best;
};
[[nodiscard]] Rescue rescue(const Printing&, const Proof& made, Seconds bleached);

}  // namespace fogproof::choose
