// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/flatbed_doubt.hpp"

#include <algorithm>
#include <cmath>

#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// D, of whites: beside a patch of known density, and with the scan's full scale taken for density 0.
// Judgement.
constexpr double kBesideAPatch = 0.02, kByFullScale = 0.05;
// Share of the density by which a scale between two known patches may be off: 0.04 in a black of 2.0.
// Judgement.
constexpr double kScale = 0.02;
// Reflectance that light strayed in the scanner may add where no dark patch tells it. Judgement.
constexpr double kStray = 0.005;
constexpr const char* kFlatbed = "flatbed";

}  // namespace

void tell_flatbed_doubt(std::span<Reading> rows, std::size_t known_patches) {
    for (Reading& row : rows) {
        const double density = std::max(row.density, 0.0);
        const double stray = known_patches < 2 ? std::log10(1 + kStray * std::pow(10.0, density)) : 0;
        row.common_error = known_patches > 0 ? kBesideAPatch : kByFullScale;
        row.dark_error = std::min(to_thousandths(std::hypot(kScale * density, stray)), 2.0);
        row.instrument = kFlatbed;
    }
}

}  // namespace fogproof::reading
