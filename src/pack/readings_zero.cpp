// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/readings_zero.hpp"

#include <algorithm>
#include <string>

#include "fogproof/base/error.hpp"

namespace fogproof::pack {
namespace {

bool tells_carrier(const Reading& reading) {
    return is_lit(reading) && reading.carrier_density;
}

}  // namespace

bool is_lit(const Reading& reading) {
    return reading.exposure_s.value_or(reading.wedge_density ? 1 : 0) > 0;
}

bool leaves_carrier_open(const Reading& reading) {
    return is_lit(reading) && !reading.carrier_density;
}

void tell_carrier(std::span<Reading> readings, double carrier_density) {
    for (Reading& reading : readings)
        if (leaves_carrier_open(reading)) reading.carrier_density = carrier_density;
}

Carrier zero_of(const Pack& before, std::span<const Reading> readings) {
    const Carrier& known = before.darkroom.enlarger.anchor_carrier;
    const auto told = std::ranges::find_if(readings, tells_carrier);
    if (known.held == Carrier::Held::density || told == readings.end()) return known;
    const double density = *told->carrier_density;
    const bool is_shared = std::ranges::all_of(readings, [&](const Reading& reading) {
        return !tells_carrier(reading) || *reading.carrier_density == density;
    });
    // Clear film is the negative's, whatever its density: these readings tell it.
    if (known.held == Carrier::Held::clear_film && is_shared) return Carrier::of(density);
    const auto open = std::ranges::count_if(readings, leaves_carrier_open);
    if (before.darkroom.anchored || open > 0)
        throw Error(Fault::data, "readings",
                    "some tell carrier_density, but " +
                        (open > 0 ? std::to_string(open) + " exposed ones do not"
                                  : std::string("the pack's own seconds do not say what lay in the carrier")),
                    "carrier_density in every exposed row, or carrier = \"empty\" (or a density) in the "
                    "[anchor] of --pack");
    return Carrier::of(is_shared ? density : 0);
}

}  // namespace fogproof::pack
