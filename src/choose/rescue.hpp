// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print left too long in the bleach and not yet fixed again: what redevelopment brings back, fog included.
#pragma once

#include <vector>

#include "choose/printing.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// s; no longer redevelopment is tried.
inline constexpr double kLongestRescue = 240;

struct RescueStep {
    Seconds redevelop;
    Proof proof;
    PrintDensity border;  ///< the unexposed border: fog comes back with the picture
    double off;           ///< rms L* from what is wanted
};

/// A print as it was made, but for its bleach, which was overdone: redeveloped for each of the usual times,
/// and for the time whose print comes closest to what is wanted.
struct Rescue {
    std::vector<RescueStep> steps;  ///< 0, 5, 10, 20, 40, 80, 160 s
    RescueStep best;
    /// 95 % of the closest time over papers that the pack may be, each exposed as it wants for such a print.
    /// What is done at single places of the print is left out there.
    Interval redevelop_s;
};
[[nodiscard]] Rescue rescue(const Printing&, const Proof& made, Seconds bleached, const Wanted&);

}  // namespace fogproof::choose
