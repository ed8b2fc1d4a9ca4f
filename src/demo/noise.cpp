// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/noise.hpp"

#include <cmath>

namespace fogproof::demo {

double normal_chance(std::int32_t x, std::int32_t y, std::uint32_t seed) {
    const std::uint32_t a = hashed(x, y, seed), b = a * 0x9E3779B1u + 0x7F4A7C15u;
    const double sum = double((a & 0xffff) + (a >> 16) + (b & 0xffff) + (b >> 16));
    return (sum * 0x1p-16 - 2) * 1.7320508075688772;  // four uniforms have variance 1/3
}

double noise(double x, double z, std::uint32_t seed) {
    const std::int32_t i = whole_below(x), j = whole_below(z);
    const double fx = x - i, fz = z - j;
    const auto corner = [&](int di, int dj) {
        const std::uint32_t slope = hashed(i + di, j + dj, seed);
        return ((slope & 0xffff) * 0x1p-15 - 1) * (fx - di) + ((slope >> 16) * 0x1p-15 - 1) * (fz - dj);
    };
    const double u = fx * fx * fx * (fx * (fx * 6 - 15) + 10), w = fz * fz * fz * (fz * (fz * 6 - 15) + 10);
    return 1.25 * mix(mix(corner(0, 0), corner(1, 0), u), mix(corner(0, 1), corner(1, 1), u), w);
}

double fractal(double x, double z, const Octaves& octaves, double footprint) {
    double wavelength = octaves.wavelength, amplitude = 1, sum = 0;
    for (int i = 0; i < octaves.count && wavelength > 2 * footprint; ++i) {
        // An octave fades over a factor of two in wavelength instead of popping out.
        const double faded = amplitude * (footprint > 0 ? smoothstep(2.0, 4.0, wavelength / footprint) : 1);
        const double here = noise(x / wavelength, z / wavelength, octaves.seed + std::uint32_t(i));
        sum += faded * (octaves.ridged ? 0.3 - std::sqrt(here * here + 0.001) : here);
        const double turned = 0.8 * x - 0.6 * z;
        z = 0.6 * x + 0.8 * z;
        x = turned;
        wavelength /= 2.03;
        amplitude *= octaves.gain;
    }
    return sum;
}

}  // namespace fogproof::demo
