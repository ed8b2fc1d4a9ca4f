// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The exposure at which one way of working comes closest to the print that fresh paper would have given.
#pragma once

#include <span>

#include "fogproof/choose/fresh_target.hpp"
#include "fogproof/print/recipe.hpp"

namespace fogproof {

struct StartingExposure {
    Seconds time;            ///< at the enlarger's setting; pseudo-seconds on a pack without an anchor
    double lightness_error;  ///< rms L* against the fresh print, over the whole frame
};

/// Searches exposures four stops either side of the fresh print's, first on a grid, then to 0.001 in log10.
/// Grade, restrainer, development, bleach and redevelopment are the recipe's; its stops are left out.
[[nodiscard]] StartingExposure starting_exposure(const Tones& frame, std::span<const Tone> tones,
                                                 const FreshTarget&, const Pack&, const PaperModel&,
                                                 const Recipe&);

/// Shortest time through clear film that gives full black: a density within 0.04 of the maximum (judgement:
/// the eye tells no more). Unfogged, nominal development, at the enlarger's setting.
[[nodiscard]] Seconds shortest_black(const Pack&, const PaperModel&, double grade);

/// Anchors a pack by the printer's own shortest time for full black through clear film at a grade.
[[nodiscard]] Pack anchored_by_black(Pack, Seconds time, double grade);

}  // namespace fogproof
