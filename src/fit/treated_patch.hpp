// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was done to a patch that was read, with every blank of its row filled in.
#pragma once

#include <optional>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// A reading with every blank filled in for one kind of paper.
struct TreatedPatch {
    double wedge_density = 0;  ///< with what lay in the carrier beyond that of the pack's anchor
    double by_callier = 0;     ///< how much more that is with a Callier factor greater by one
    double exposure_s = 0;
    std::optional<double> filter;  ///< nothing: white light on graded paper
    double restrainer_ml_l = 0, develop_s = 0, bleach_s = 0, bleach_parts = 0, redevelop_s = 0;
};

/// An empty filter is grade 2 on variable-contrast paper; an empty exposure is none, or under a wedge the
/// pack's own nominal exposure (its speed point and 1.2 more, so that a wedge shows its whole range), from
/// which a Predictor finds the likeliest. A density of the negative is what the pack's Callier factor makes
/// of it, whatever factor it was reckoned by; that flare and falloff are in it too is neglected.
[[nodiscard]] TreatedPatch treated(const Reading&, const Pack& nominal);
/// True where treated() has to guess the exposure: a wedge lay over the patch and no time is told.
[[nodiscard]] bool exposure_guessed(const Reading&);

}  // namespace fogproof::fit
