// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/flatbed_doubt.hpp"

#include <algorithm>
#include <cmath>

#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

constexpr const char* kFlatbed = "flatbed";

}  // namespace

double by_stray_light(const FlatbedDoubt& doubt, double density) {
    return std::log10(1 + doubt.stray * std::pow(10.0, density));
}

double flatbed_uncertainty(const FlatbedDoubt& doubt, PrintDensity read) {
    const double density = std::max(read.value, 0.0);
    return std::hypot(doubt.whites, doubt.share * density, by_stray_light(doubt, density));
}

void tell_flatbed_doubt(std::span<Reading> rows, const FlatbedDoubt& doubt) {
    for (Reading& row : rows) {
        const double density = std::max(row.density, 0.0);
        const double stray = by_stray_light(doubt, density);
        row.common_error = to_thousandths(doubt.whites);
        row.dark_error = std::min(to_thousandths(std::hypot(doubt.share * density, stray)), 2.0);
        row.instrument = kFlatbed;
    }
}

}  // namespace fogproof::reading
