// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a print is meant to look like, in the ways a printer may say it.
#pragma once

#include <span>

#include "fogproof/choose/recipe_search.hpp"

namespace fogproof {

/// The same negative on the same paper before it fogged.
[[nodiscard]] Wanted as_fresh(const Easel&);

/// A tone of the negative put at a print density above paper white.
struct PlacedTone {
    NegativeDensity negative;
    double above_white = 0.09;
};
/// As fresh, but the placed tones count nine tenths of everything: they fix the exposure, the picture the
/// rest.
[[nodiscard]] Wanted placed(const Easel&, std::span<const PlacedTone>);

/// The tones of another picture of the same frame, by rank: as much of the print as light as there (histogram
/// specification). `lightness` holds L* and share of area; order does not matter.
struct MatchedTone {
    double lightness, share;
};
[[nodiscard]] Wanted matched(const Easel&, std::vector<MatchedTone>);

}  // namespace fogproof
