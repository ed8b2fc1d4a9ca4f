// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How roughly an answer is known because the pack is.
// Numbers err together as the pack's last fit left them; those no fit knew are independent of all others.
// Not modelled: answers that bend within one standard deviation.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "pack/schema.hpp"

namespace fogproof::pack {

/// Standard deviations either side that hold 95 % of a normal distribution.
inline constexpr double kWithin95Percent = 1.96;

/// One standard deviation of a number of a pack: the pack's own, else the judged doubt of a default that is
/// merely assumed, else 0.
[[nodiscard]] double deviation_of(const Pack&, const PackNumber&);

/// False for what no draw and no change touches: scatter, which comes on top of what is doubtful; the speed
/// point of a pack without an anchor, since nothing is known in seconds there; the range of a graded paper
/// where the paper is not graded.
[[nodiscard]] bool is_moved(const Pack&, const PackNumber&);

/// Density by which a print misses every curve of its pack, one standard deviation: papers obey no law
/// exactly, and no sheet is quite like the next.
[[nodiscard]] double unexplained_scatter(const Pack&);

/// Correlations of numbers by name: those of the pack's fit, 1 on the diagonal, else 0.
[[nodiscard]] double correlation(const FitRecord&, const std::string& a, const std::string& b);

}  // namespace fogproof::pack
