// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/reciprocity.hpp"

#include <cmath>

#include "fogproof/pack/readings.hpp"

namespace fogproof::pack {
namespace {

// log10 of seconds.
double middle_of_measured_times(const Pack& pack) {
    double sum = 0;
    int count = 0;
    for (const Reading& row : pack.readings.rows())
        if (row.exposure_s.value_or(0) > 0) sum += std::log10(*row.exposure_s), ++count;
    return count > 0 ? sum / count : pack.speed_log_s / pack.darkroom.enlarger.reciprocity;
}

}  // namespace

Pack with_reciprocity(Pack pack, double exponent) {
    double& own = pack.darkroom.enlarger.reciprocity;
    if (pack.darkroom.anchored) pack.speed_log_s += (exponent - own) * middle_of_measured_times(pack);
    own = exponent;
    return pack;
}

}  // namespace fogproof::pack
