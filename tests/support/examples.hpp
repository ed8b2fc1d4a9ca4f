// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs and frames for tests. Invented, and only a stage for checks whose sources stand beside them.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include "choose/printing.hpp"
#include "negative/tones.hpp"
#include "pack/from_slips.hpp"
#include "pack/schema.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::examples {

/// Variable-contrast gloss paper with a given fog above its white.
inline Pack fogged_pack(double fog_above_white) {
    Slips slips;
    slips.white_density = 0.08;
    slips.blank_density = 0.08 + fog_above_white;
    Pack pack = pack_from_slips(slips);
    pack.darkroom.anchored = true;
    return pack;
}

/// A frame whose densities spread over a range as those of an ordinary subject do: a hump leaning to the thin
/// side.
inline Tones ordinary_frame(double thinnest = 0.15, double range = 1.15) {
    constexpr std::size_t kSteps = 400;
    std::vector<NegativeDensity> scale;
    Histogram counts;
    for (std::size_t i = 0; i < kSteps; ++i) {
        const double u = (double(i) + 0.5) / kSteps;
        scale.push_back({thinnest + range * u});
        counts.push_back(std::uint64_t(1e6 * std::pow(u, 1.2) * std::pow(1 - u, 1.6)));
    }
    return Tones(counts, scale);
}

/// A pack whose every number is known exactly, but for what a test puts in doubt.
inline Pack certain(Pack pack) {
    for (const auto& row : pack_numbers()) pack.knowledge[row.name()] = {Origin::measured, 0.0};
    pack.sheet_scatter = 0;
    return pack;
}

/// Any pack that the file format allows and that hangs together, from a seed.
inline Pack random_pack(std::mt19937& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution(low, high)(random);
    };
    Slips slips;
    slips.surface = Surface(std::uniform_int_distribution(0, 2)(random));
    slips.white_density = between(0.04, 0.20);
    slips.blank_density = slips.white_density + between(0.0, 0.6);
    if (std::bernoulli_distribution(0.3)(random)) {
        slips.contrast = Contrast::graded;
        slips.iso_range = between(55, 150);
    }
    Pack pack = pack_from_slips(slips);
    pack.darkroom.anchored = true;
    pack.speed_log_s = between(-0.3, 1.2);
    pack.bleach.starvation = between(0.02, 0.6);
    pack.bleach.per_second = between(0.001, 0.02);
    pack.bleach.dilution_exponent = between(0.5, 1.3);
    pack.restrainer = {between(5, 60), between(0.6, 2), between(0.1, 0.6)};
    pack.redevelop.covering = between(0.8, 1.1);
    pack.sheet.stain = between(0, 0.08);
    pack.sheet.thinned_tone = between(0, 0.6);
    pack.darkroom.enlarger.callier = between(1, 1.4);
    pack.darkroom.enlarger.flare = between(0, 0.05);
    return pack;
}

}  // namespace fogproof::tests::examples
