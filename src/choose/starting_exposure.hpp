// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The exposure at which one way of working comes closest to what is wanted, and what full black needs.
#pragma once

#include <optional>
#include <span>

#include "choose/fresh_target.hpp"
#include "choose/wanted_tones.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Percent of clearing up to which a print is exposed more to make up for its bleach. Judgement: beyond it
/// the bleach eats the picture, and nobody exposes for a print that was left in too long.
inline constexpr double kMostMadeUpFor = 150;
/// The same as a dose; nothing where there is no fog to clear, and every bleach is made up for.
[[nodiscard]] std::optional<double> most_made_up_for(const PaperModel&, const DevelopStep&);

/// Where to start: the exposure whose print has the least Adaptation::miss (wanted_tones.hpp) from what is
/// wanted, rms over the tones. Every command takes its seconds from here. Grade, restrainer, development,
/// flash, bleach and redevelopment are the recipe's. Its exposures in stops count by their proportions, and
/// the answer is the time of the first of them; exposures in seconds beside them stay as they are. Where all
/// are in seconds, the answer is for the first, the others in proportion. A bleach beyond one and a half
/// times clearing counts as that much (judgement). Searches four stops either side of `fresh`, the exposure
/// of the fresh print, the restrainer's loss of speed allowed for, first on a grid, then to 0.001 in log10.
/// In seconds at the enlarger's setting (pseudo-seconds on a pack without an anchor).
[[nodiscard]] Seconds starting_exposure(const Tones& frame, const Wanted&, LogExposure fresh, const Pack&,
                                        const PaperModel&, const Recipe&);

/// D short of the maximum that counts as full black. Judgement: the eye tells no more.
inline constexpr double kFullBlack = 0.04;
/// log10 exposure whose print, before fog, falls so much short of the maximum; nominal development.
[[nodiscard]] double log_exposure_of_black(const Pack&, const PaperModel&, const Filter&, double short_by);
/// Shortest time through clear film that gives full black. Unfogged, nominal development, at the enlarger's
/// setting.
[[nodiscard]] Seconds shortest_black(const Pack&, const PaperModel&, const Filter&);
[[nodiscard]] Seconds shortest_black(const Pack&, const PaperModel&, double grade);
/// Stops by which exposures, one after the other through their filters, are beyond the shortest of the same
/// proportions that give full black through clear film.
[[nodiscard]] double black_stops(const Pack&, const PaperModel&, std::span<const Exposure>);

}  // namespace fogproof::choose
