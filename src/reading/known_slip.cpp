// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/known_slip.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "reading/light_density.hpp"

namespace fogproof::reading {

std::optional<Reading> known_slip(std::span<const KnownPatch> known, const FlatbedDoubt& doubt,
                                  const std::string& strip) {
    const auto slip = std::ranges::find(known, "fixed", &KnownPatch::what);
    if (slip == known.end()) return std::nullopt;
    std::array rows{Reading{}};
    Reading& row = rows.front();
    row.strip = strip + "-fixed";
    row.exposure_s = 0;
    row.develop_s = 0;
    row.density = slip->density;
    tell_flatbed_doubt(rows, doubt);
    // Whites of the scan are off by what the slip is off and by more: together with it by the first alone.
    const double shared = std::min(slip->doubt, slip->doubt * slip->doubt / std::max(doubt.whites, 1e-6));
    row.common_error = to_thousandths(shared);
    row.density_error = to_thousandths(std::sqrt(slip->doubt * slip->doubt - shared * shared));
    return row;
}

}  // namespace fogproof::reading
