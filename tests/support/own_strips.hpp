// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings of papers that obey our own laws to the letter, noise apart.
#pragma once

#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "fit/predictor.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::own {

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

/// The same, every sheet (label) but those only fixed a little darker or lighter than the next as a whole.
inline std::vector<Reading> on_own_sheets(std::vector<Reading> readings, double scatter, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<> chance(0, 1);
    std::map<std::string, double> shifts;
    for (auto& reading : readings) {
        if (reading.develop_s && *reading.develop_s <= 0) continue;
        const auto [at, is_new] = shifts.emplace(reading.strip, 0);
        if (is_new) at->second = scatter * chance(random);
        reading.density += at->second;
    }
    return readings;
}

/// Patches whose sheets (labels) each took a little more or less light than told, by a scatter in log10.
inline std::vector<Reading> lit_unlike(std::vector<Reading> patches, double log_scatter, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<> chance(0, 1);
    std::map<std::string, double> more;
    for (auto& patch : patches) {
        const auto [at, is_new] = more.emplace(patch.strip, 0);
        if (is_new) at->second = log_scatter * chance(random);
        patch.exposure_s = *patch.exposure_s * std::pow(10.0, at->second);
    }
    return patches;
}

/// Readings of such patches, with the exposures that are told.
inline std::vector<Reading> read_unlike(const Pack& truth, std::vector<Reading> patches, double log_scatter,
                                        double noise, unsigned seed) {
    const auto densities = read(truth, lit_unlike(patches, log_scatter, seed + 1), noise, seed);
    for (std::size_t i = 0; i < patches.size(); ++i) patches[i].density = densities[i].density;
    return patches;
}

/// Twenty years in an attic.
inline Pack old_paper(Contrast contrast) {
    Pack pack;
    pack.contrast = contrast;
    pack.iso_range = 95;
    pack.sheet.white_density = 0.10;
    pack.blank_density = 0.45;
    pack.black_density = 1.95;
    pack.speed_log_s = 0.70;
    pack.restrainer = {12, 1.1, 0.30};
    pack.bleach.per_second = 0.0022;
    pack.bleach.starvation = 0.05;
    return pack;
}

inline Pack nothing_known(Contrast contrast) {
    Pack pack;
    pack.contrast = contrast;
    return pack;
}

inline std::vector<Strip> slips() {
    return {{"fixed", 1, 0, 2, 0, 0}, {"fixed", 1, 0, 2, 0, 0}, {"blank"}, {"blank"},
            {"b20", 1, 0, 2, 20},     {"b20", 1, 0, 2, 20}};
}

inline std::vector<Strip> usual_strips() {
    auto strips = slips();
    for (const Strip& strip : {Strip{"soft", 15, 40, 2, 20}, Strip{"bleached", 15, 40, 2, 20, 90, 40},
                               Strip{"later", 15, 40, 2, 20, 90, 80}})
        strips.push_back(strip);
    return strips;
}

}  // namespace fogproof::tests::own
