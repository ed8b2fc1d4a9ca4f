// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a print is meant to look like, in the ways a printer may say it.
#pragma once

#include <span>

#include "choose/recipe_search.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// The same negative on the same paper before it fogged.
[[nodiscard]] Wanted as_fresh(const Printing&);

/// A tone of the negative put at a print density above paper white.
struct PlacedTone {
    NegativeDensity negative;
    double above_white = 0.09;
};
/// As fresh, but the placed tones count nine tenths of everything: they fix the exposure, the picture the
/// rest. Densities are meant as they stand, however grey the sheet is.
[[nodiscard]] Wanted placed(const Printing&, std::span<const PlacedTone>);

/// Tones of the negative that matter more than their area says, and the share of all that they count.
struct MindedTones {
    std::vector<Tone> tones;  ///< their own shares need not add up to 1
    double share = 0.5;
};
/// The same tones wanted, these counting as asked and the whole picture what is left of 1.
[[nodiscard]] Wanted minding(Wanted, std::span<const MindedTones>);
/// The tones from one share of the frame to another, thinnest 0, densest 1.
[[nodiscard]] std::vector<Tone> tones_between(const Tones&, double from, double to);

/// The tones of another picture of the same frame, by rank: as much of the print as light as there (histogram
/// specification). `lightness` holds L* and share of area; order does not matter.
/// Its lightness is meant as it stands.
struct MatchedTone {
    double lightness, share;
};
[[nodiscard]] Wanted matched(const Printing&, std::vector<MatchedTone>);

/// L* wanted of the densest and of the thinnest tones of a frame.
struct WantedEnds {
    double lights, darks;
};
[[nodiscard]] WantedEnds wanted_ends(const Wanted&, const Tones& frame);

}  // namespace fogproof::choose
