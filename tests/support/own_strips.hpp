// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings of papers that obey our own laws to the letter, noise apart.
#pragma once

#include <random>
#include <string>
#include <vector>

#include "fogproof/calibrate/predictor.hpp"
#include "fogproof/calibrate/readings.hpp"
#include "fogproof/pack/pack.hpp"

namespace fogproof::own {

/// One piece of paper through one treatment.
struct Strip {
    std::string label;
    int steps = 1;  ///< 1: an unexposed slip
    double exposure_s = 0, filter = 2, restrainer = 0, develop_s = 90, bleach_s = 0, redevelop_s = 0;
};

/// Patches of a strip, densities still nil: a wedge from 0.05 to 3.05 (US Navy NAVEDTRA 14209, p. 10-40).
inline std::vector<Reading> patches_of(const Strip& strip, Contrast contrast) {
    std::vector<Reading> patches;
    for (int step = 0; step < strip.steps; ++step) {
        Reading reading;
        reading.strip = strip.label;
        reading.wedge_density = strip.steps > 1 ? 0.05 + 3.0 * step / (strip.steps - 1) : 0;
        reading.exposure_s = strip.exposure_s;
        if (contrast == Contrast::variable) reading.filter = strip.filter;
        reading.restrainer_ml_l = strip.restrainer;
        reading.develop_s = strip.develop_s;
        reading.bleach_s = strip.bleach_s;
        reading.redevelop_s = strip.redevelop_s;
        patches.push_back(reading);
    }
    return patches;
}

inline std::vector<Reading> patches_of(const std::vector<Strip>& strips, Contrast contrast) {
    std::vector<Reading> all;
    for (const auto& strip : strips) {
        const auto patches = patches_of(strip, contrast);
        all.insert(all.end(), patches.begin(), patches.end());
    }
    return all;
}

/// The same with the densities that a paper shows, and noise.
inline std::vector<Reading> read(const Pack& truth, std::vector<Reading> patches, double noise,
                                 unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<> chance(0, 1);
    const auto densities = Predictor(truth, patches).densities(truth);
    for (std::size_t i = 0; i < patches.size(); ++i)
        patches[i].density = densities[i] + noise * chance(random);
    return patches;
}

}  // namespace fogproof::own
