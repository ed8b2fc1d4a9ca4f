// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/known_slip.hpp"

#include <algorithm>

#include "reading/light_density.hpp"

namespace fogproof::reading {

std::optional<Reading> known_slip(std::span<const KnownPatch> known, const std::string& scan) {
    // D, from one slip of a pack to the next. Judgement.
    constexpr double kSlipsDiffer = 0.005;
    const auto slip = std::ranges::find(known, "fixed", &KnownPatch::what);
    if (slip == known.end()) return std::nullopt;
    Reading row;
    row.strip = scan + "-fixed";
    row.exposure_s = 0;
    row.develop_s = 0;
    row.density = slip->density;
    row.density_error = kSlipsDiffer;
    row.common_error = to_thousandths(slip->doubt);
    row.instrument = "usual fixed slip";
    return row;
}

}  // namespace fogproof::reading
