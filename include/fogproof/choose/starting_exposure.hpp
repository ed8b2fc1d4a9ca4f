// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The exposure at which one way of working comes closest to the print that fresh paper would have given, and
// what full black needs.
#pragma once

#include <span>

#include "fogproof/choose/fresh_target.hpp"
#include "fogproof/print/recipe.hpp"

namespace fogproof {

/// Where to start: the exposure whose print looks most like the fresh one to an eye that adapts to each
/// print's own white (rms L* relative to the unexposed border, over the whole frame). Against absolute
/// lightness a sheet that was not bleached would be exposed ever less, to make up for its grey: no printer
/// does that. Grade, restrainer, development, bleach and redevelopment are the recipe's; its exposures count
/// by their stops from the start, or all alike where they are given in seconds. Searches four stops either
/// side of the fresh print's exposure, first on a grid, then to 0.001 in log10. In seconds at the enlarger's
/// setting (pseudo-seconds on a pack without an anchor).
[[nodiscard]] Seconds starting_exposure(const Tones& frame, std::span<const Tone> tones, const FreshTarget&,
                                        const Pack&, const PaperModel&, const Recipe&);

/// Shortest time through clear film that gives full black: a density within 0.04 of the maximum (judgement:
/// the eye tells no more). Unfogged, nominal development, at the enlarger's setting.
[[nodiscard]] Seconds shortest_black(const Pack&, const PaperModel&, const Filter&);
[[nodiscard]] Seconds shortest_black(const Pack&, const PaperModel&, double grade);

/// Anchors a pack by the printer's own shortest time for full black through clear film at a grade.
[[nodiscard]] Pack anchored_by_black(Pack, Seconds time, double grade);

}  // namespace fogproof
