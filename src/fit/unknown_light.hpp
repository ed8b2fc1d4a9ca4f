// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Exposures under a wedge that nobody told.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "fit/treated_patch.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Rows that share one such exposure: what lay behind one wedge was exposed at once, and both halves of a
/// sheet were. `patches`: the readings, treated().
[[nodiscard]] std::vector<std::vector<std::size_t>> unknown_exposures(std::span<const Reading>,
                                                                      std::span<const TreatedPatch> patches);

/// log10 by which such an exposure is more than what treated() takes, so that its patches come closest to
/// what was read of them, least squares. Found anew for every pack, it takes from the readings what they
/// could otherwise say of speed, and leaves them what they say of all else (variable projection: Golub and
/// Pereyra 1973). `densities`: of the patches, under so much more light; `from`: where to look first, or
/// everywhere within 3.
[[nodiscard]] double closest_light(std::span<const double> read,
                                   const std::function<std::vector<double>(double)>& densities,
                                   std::optional<double> from);

}  // namespace fogproof::fit
