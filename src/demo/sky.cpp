// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/sky.hpp"

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

// Thickness of cloud, 0 to 1, on a sheet seen in perspective.
double cloud(double x, double z) {
    const double wx = x + 0.55 * fractal(x, z, {1.6, 3, 0.5, 401}),
                 wz = z + 0.55 * fractal(x, z, {1.6, 3, 0.5, 409});
    const double veil = fractal(wx * 0.5, wz * 1.1, {1.5, 7, 0.52, 419});
    const double heap = fractal(wx, wz, {0.85, 7, 0.54, 431});
    return smoothstep(-0.30, 0.75, veil + 0.55 * heap + 0.05);
}

}  // namespace

double sky_luminance(double u, double v) {
    const double up = std::max(v, 0.0) + 0.10;
    const double x = u / up, z = 1 / up;
    const double blue = mix(0.15, 0.42, std::exp(-6.0 * std::max(v, 0.0))) * (1 - 0.28 * u);
    const double thick = cloud(x, z);
    // A cloud is lit from the left: it is brighter where it thins out towards the sun.
    const double relief = thick - cloud(x - 0.10, z - 0.02);
    const double white = 0.60 * (1 - 0.16 * u) + 0.45 * relief;
    return mix(blue, white, 0.92 * thick);
}

Haze haze_before(double u, double v, double distance) {
    const double low = std::exp(-std::max(v, 0.0) * 6);
    const double through = std::exp(-distance / mix(30000, 13000, low));
    return {(1 - through) * 0.36 * (1 - 0.25 * u), through};
}

}  // namespace fogproof::demo
