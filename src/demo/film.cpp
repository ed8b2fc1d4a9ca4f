// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/film.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr double kSlope = 0.64, kToe = 0.20, kThreshold = -2.16;
constexpr double kGranularity = 0.0065;  // deviation at density 1 through the standard 48 um aperture
constexpr double kApertureSide = 42.5;   // side of the square with that aperture's area, um
constexpr double kClump = 5.0;           // distance between clumps of grains, um

std::array<double, 3> point_weights(double t) {
    return {0.5 * (0.5 - t) * (0.5 - t), 0.75 - t * t, 0.5 * (0.5 + t) * (0.5 + t)};
}

double norm(const std::array<double, 3>& w) {
    return std::sqrt(w[0] * w[0] + w[1] * w[1] + w[2] * w[2]);
}

}  // namespace

double developed_density(double luminance) {
    const double over = (std::log10(std::max(luminance, 1e-6)) - kThreshold) / kToe;
    return kSlope * kToe * (over > 30 ? over : std::log1p(std::exp(over)));
}

Grain::Grain(double pixel_um)
    : pitch_(std::max(kClump, pixel_um)), strength_(kGranularity * kApertureSide / pitch_) {}

double Grain::at(double x_um, double y_um, double density) const {
    const double gx = x_um / pitch_, gy = y_um / pitch_;
    const int i = whole_below(gx), j = whole_below(gy);
    const auto wx = point_weights(gx - i - 0.5), wy = point_weights(gy - j - 0.5);
    double sum = 0;
    for (int b = 0; b < 3; ++b)
        for (int a = 0; a < 3; ++a)
            sum += wx[std::size_t(a)] * wy[std::size_t(b)] * normal_chance(i + a - 1, j + b - 1, 901);
    // The root of the density: grains fall at random, so their number varies as its own root.
    return strength_ * sum / (norm(wx) * norm(wy)) * std::sqrt(std::max(0.0, density) + 0.03);
}

}  // namespace fogproof::demo
