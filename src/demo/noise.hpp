// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Noise from integer hashes: the same on every machine and for every order of evaluation. Gradient noise
// after Perlin (2002, "Improving noise"): quintic blend, so that slopes are smooth too.
#pragma once

#include <algorithm>
#include <cstdint>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// Well-mixed 32 bits of a lattice point; seed tells fields apart.
[[nodiscard]] constexpr std::uint32_t hashed(std::int32_t x, std::int32_t y, std::uint32_t seed) {
    std::uint32_t h = std::uint32_t(x) * 0x9E3779B1u ^ (std::uint32_t(y) * 0x85EBCA77u + seed * 0xC2B2AE3Du);
    h = (h ^ (h >> 15)) * 0x2C1B3C6Du;
    h = (h ^ (h >> 12)) * 0x297A2D39u;
    return h ^ (h >> 15);
}
/// Uniform in [0, 1).
[[nodiscard]] constexpr double chance(std::int32_t x, std::int32_t y, std::uint32_t seed) {
    return hashed(x, y, seed) * 0x1p-32;
}
/// Mean 0, deviation 1, nearly normal: the sum of the four halves of two hashes.
[[nodiscard]] double normal_chance(std::int32_t x, std::int32_t y, std::uint32_t seed);
/// Gradient noise of unit wavelength, about -0.7 to 0.7.
[[nodiscard]] double noise(double x, double z, std::uint32_t seed);

/// Octaves of noise from the longest wavelength down to what the footprint still resolves; each octave is
/// `gain` times the one before, at `1/2.03` of its wavelength and turned, so that lattices never line up.
/// Ridged noise has a crest where plain noise passes through zero.
struct Octaves {
    double wavelength;
    int count;
    double gain = 0.5;
    std::uint32_t seed = 1;
    bool ridged = false;
};
[[nodiscard]] double fractal(double x, double z, const Octaves& octaves, double footprint = 0);

[[nodiscard]] constexpr double mix(double a, double b, double share) {
    return a + (b - a) * share;
}
/// 0 before low, 1 beyond high, a smooth cubic between; high may be the lesser.
[[nodiscard]] constexpr double smoothstep(double low, double high, double a) {
    const double t = std::clamp((a - low) / (high - low), 0.0, 1.0);
    return t * t * (3 - 2 * t);
}
/// Largest whole number not above x.
[[nodiscard]] constexpr std::int32_t whole_below(double x) {
    const auto i = std::int32_t(x);
    return i - (x < i);
}
}  // namespace fogproof::demo
