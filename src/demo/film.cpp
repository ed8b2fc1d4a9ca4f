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

// Quadratic B-spline: weights of three points, the middle one at a distance t within half a step.
std::array<double, 3> spline_weights(double t) {
    return {0.5 * (0.5 - t) * (0.5 - t), 0.75 - t * t, 0.5 * (0.5 + t) * (0.5 + t)};
}

}  // namespace

double developed_density(double luminance) {
    const double over = (std::log10(std::max(luminance, 1e-6)) - kThreshold) / kToe;
    return kSlope * kToe * (over > 30 ? over : std::log1p(std::exp(over)));
}

double grain(double x_um, double y_um, double pixel_um, double density) {
    const double pitch = std::max(kClump, pixel_um), gx = x_um / pitch, gy = y_um / pitch;
    const int i = whole_below(gx), j = whole_below(gy);
    const auto wx = spline_weights(gx - i - 0.5), wy = spline_weights(gy - j - 0.5);
    const double norm = std::hypot(wx[0], wx[1], wx[2]) * std::hypot(wy[0], wy[1], wy[2]);
    double sum = 0;
    for (int b = 0; b < 3; ++b)
        for (int a = 0; a < 3; ++a)
            sum += wx[std::size_t(a)] * wy[std::size_t(b)] * normal_chance(i + a - 1, j + b - 1, 901);
    // The root of the density: grains fall at random, so their number varies as its own root.
    return kGranularity * kApertureSide / pitch * sum / norm * std::sqrt(std::max(0.0, density) + 0.03);
}

double in_perforation(double x, double y, double pixel) {
    const double from_middle = std::abs(y - 0.5 * kScanTall);
    const double row = 0.5 * kFrameTall + kEdgeAbove + 0.5 * kHoleTall;
    if (std::abs(from_middle - row) > 0.5 * kHoleTall + pixel) return 0;
    constexpr double corner = 0.5;
    const double along = x - 0.9, nearest = std::round(along / kHolePitch) * kHolePitch;
    const double qx = std::abs(along - nearest) - 0.5 * kHoleWide + corner;
    const double qy = std::abs(from_middle - row) - 0.5 * kHoleTall + corner;
    const double outside =
        std::hypot(std::max(qx, 0.0), std::max(qy, 0.0)) + std::min(std::max(qx, qy), 0.0) - corner;
    return std::clamp(0.5 - outside / pixel, 0.0, 1.0);
}

double past_holder(double x, double y) {
    // The holder lies a little out of the scanner's focus.
    constexpr double blur = 0.05;
    const double depth = std::min(std::min(x, kScanWide - x), std::min(y, kScanTall - y)) - kHolder;
    return smoothstep(-blur, blur, depth);
}

}  // namespace fogproof::demo
