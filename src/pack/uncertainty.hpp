// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How roughly an answer is known because the pack is.
// Numbers err together as the pack's last fit left them; those no fit knew are independent of all others.
// Not modelled: answers that bend within one standard deviation.
#pragma once

#include <optional>
#include <string>

#include "fogproof/rooms.hpp"
#include "pack/schema.hpp"

namespace fogproof::pack {

/// Standard deviations either side that hold 95 % of a normal distribution.
inline constexpr double kWithin95Percent = 1.96;

/// One standard deviation of a number of a pack, the same before, in and after a fit: the pack's own. Where
/// it has none, the row's doubt of a value that is merely assumed, and less than that of one that somebody
/// states or measured: labels and instruments err too. The doubt of a number that goes_by_factor() is the
/// same factor for any value. An agent or a head that nobody names makes some doubts wider.
[[nodiscard]] double deviation_of(const Pack&, const PackNumber&);
/// The same of a filter's number, by its name in Pack::knowledge.
[[nodiscard]] double filter_deviation_of(const Pack&, const std::string& name);

/// The 95 % of a number of a pack, within its row's range: a factor either side where it goes_by_factor().
/// Nothing where it is exact or does not apply.
struct Within {
    double low, high;
};
[[nodiscard]] std::optional<Within> within_95_percent(const Pack&, const PackNumber&);

/// Puts another value of a doubtful number into a pack, within the row's range.
using PutDoubtful = void (*)(Pack&, const PackNumber&, double value);
/// Of packs that this one may be. Before a fit settles both together, another exponent of reciprocity leaves
/// the seconds of the speed point, at which the paper was seen.
[[nodiscard]] PutDoubtful putting_for(const Pack&);

/// False for what no draw and no change touches: scatter, which comes on top of what is doubtful; the speed
/// point of a pack without an anchor, since nothing is known in seconds there; the range of a graded paper
/// where the paper is not graded; the fog of the edges, which no answer counts.
[[nodiscard]] bool is_moved(const Pack&, const PackNumber&);

/// How sheets differ: one was fogged a little more than the next, by a density alike in all tones, and took a
/// little more light or development, which darkens most where its curve rises: by so much log10 of light for
/// a scatter of 1 D. Judgement.
inline constexpr double kSheetInLight = 0.5;
/// Density by which a print misses every curve of its pack, one standard deviation, where its curve rises by
/// so many D per log10 of light: papers obey no law exactly, and no sheet is quite like the next.
[[nodiscard]] double unexplained_scatter(const Pack&, double rise);

/// Correlations of numbers by name: those of the pack's fit, 1 on the diagonal, else 0.
[[nodiscard]] double correlation(const FitRecord&, const std::string& a, const std::string& b);

}  // namespace fogproof::pack
