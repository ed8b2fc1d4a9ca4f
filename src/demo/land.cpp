// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What lies under the sun: snow with a trail of footmarks, mountains, and the sky over them.
#include <algorithm>

#include "demo/noise.hpp"
#include "demo/scene.hpp"

namespace fogproof::demo {
namespace {

// Behind a yellow filter: thin high cloud, lighter towards the horizon and the sun.
double sky(double u, double v) {
    const double up = std::max(v, 0.0) + 0.10, x = u / up, z = 1 / up;  // on a sheet seen in perspective
    const double wx = x + 0.55 * fractal(x, z, {1.6, 3, 0.5, 401}),
                 wz = z + 0.55 * fractal(x, z, {1.6, 3, 0.5, 409});
    const double veil = fractal(wx * 0.5, wz * 1.1, {1.5, 6, 0.52, 419}),
                 heap = fractal(wx, wz, {0.85, 7, 0.54, 431});
    const double cloud = 0.9 * smoothstep(-0.30, 0.75, veil + 0.55 * heap + 0.02);
    return mix(mix(0.07, 0.34, std::exp(-7.0 * std::max(v, 0.0))) * (1 - 0.35 * u),
               0.50 - 0.1 * u + 0.1 * heap, cloud);
}

// Height of the mountains' face, `down` below its crest. The crest is the face at 0, so that spurs come down
// from the tops; they wander more the lower they come.
double face(double u, double down, double spot) {
    const double bent = u + 0.35 * down * fractal(u, down, {0.16, 3, 0.5, 521}, spot);
    return 0.20 * fractal(bent, 0.42 * down, {0.30, 8, 0.45, 501, true}, spot);
}

Cover mountain(double u, double v, double spot) {
    const double down = 0.155 + face(u, 0, spot) - v;
    if (down < -spot) return {};
    const double here = face(u, down, spot), across = (face(u + spot, down, spot) - here) / spot;
    const double along = (face(u, down + spot, spot) - here) / spot;
    const Vec normal = unit({-across, 0.62 + 0.5 * along, -0.62 + 0.4 * along});
    const double rough = fractal(u, 0.8 * v, {0.02, 6, 0.62, 541}, spot);
    const double rock = 0.85 * smoothstep(0.75, 1.25, std::abs(across) + 0.5 * along + 1.1 * rough);
    // A face that turns from the sun lies in the shadow of its spur.
    const double sun = smoothstep(-0.05, 0.45, dot(normal, kToSun));
    const double light = reflected(mix(0.9, 0.12 + 0.1 * rough, rock), normal, sun);
    return {hazy(light, v, 9000), std::clamp(0.5 + down / spot, 0.0, 1.0)};
}

// Somebody came up to the door: marks of a left and a right foot along a line that wanders.
double footmarks(double x, double z) {
    constexpr double kStep = 0.40, kDoorX = 7.05, kDoorZ = 20;
    const double middle =
        kDoorX - 10.0 * std::pow(std::max(0.0, 1 - z / kDoorZ), 1.25) + 0.25 * std::sin(0.6 * z);
    if (z > kDoorZ || std::abs(x - middle) > 0.6) return 0;
    double depth = 0;
    for (int step = whole_below(z / kStep) - 1; step <= whole_below(z / kStep) + 1; ++step) {
        const double side = (step % 2 == 0 ? 0.11 : -0.11) + 0.05 * (chance(step, 1, 701) - 0.5);
        const double dx = (x - middle - side) / 0.055;
        const double dz = (z - kStep * (step + 0.5 + 0.2 * chance(step, 2, 701))) / 0.115;
        const double r = dx * dx + dz * dz + 0.7 * fractal(x, z, {0.13, 3, 0.6, 703});
        depth += (0.09 + 0.05 * chance(step, 3, 701)) * std::exp(-r * r);
    }
    return depth;
}

// Wind has combed the crust: short ridges across its way, in patches, on long swells.
double snow_height(double x, double z, double footprint) {
    const double along = 0.83 * x - 0.56 * z, across = 0.56 * x + 0.83 * z;
    const double bent = across + 0.3 * fractal(x, z, {2.3, 2, 0.5, 711}, footprint);
    const double patch = smoothstep(-0.05, 0.45, fractal(x, z, {6.5, 3, 0.55, 723}, footprint));
    return 1.3 * fractal(x + 7, z + 3, {19, 2, 0.4, 731}, footprint) +
           0.30 * fractal(x, z * 1.3, {5.0, 3, 0.45, 735}, footprint) +
           0.05 * patch * fractal(bent * 2.2, along * 0.7, {1.0, 3, 0.4, 741, true}, footprint * 2) +
           0.008 * mix(0.25, 1.0, patch) * fractal(x, z, {0.16, 5, 0.6, 751}, footprint) -
           (footprint < 0.25 ? footmarks(x, z) : 0);
}

}  // namespace

double reflected(double reflectance, Vec normal, double sun, double open) {
    const double towards_glow = dot(normal, Vec{-0.62, 0.25, -0.74});  // the sky is brightest round the sun
    const double sky = 0.19 * (0.5 + 0.5 * normal.y) * (0.85 + 0.6 * towards_glow),
                 snow = 0.15 - 0.15 * normal.y;
    return reflectance * (sun * std::max(0.0, dot(normal, kToSun)) + open * (sky + snow));
}

double hazy(double light, double v, double distance) {
    return mix(0.33, light, std::exp(-distance / mix(26000, 8000, std::exp(-7 * std::max(v, 0.0)))));
}

void see_meadow(Sight& sight) {
    const double edge = ground(kMeadowEnd) / kMeadowEnd + 0.005 * fractal(sight.u, 0, {0.15, 4, 0.6, 761});
    const double share = std::clamp(0.5 + (edge - sight.v) / (2 * sight.spot), 0.0, 1.0);
    if (share <= 0) return;
    const double z = sight.v < kRise ? std::min(kEyeHeight / (kRise - sight.v), kMeadowEnd) : kMeadowEnd;
    const Vec place{sight.u * z, ground(z), z};
    // What the spot covers of the ground, across and away.
    const double across = z * sight.spot, away = across * z / kEyeHeight,
                 footprint = 0.5 * std::sqrt(across * away);
    const double dx = std::max(across, 0.004), dz = std::max(0.5 * away, 0.004);
    const double here = snow_height(place.x, z, footprint);
    const Vec normal = unit({(here - snow_height(place.x + dx, z, footprint)) / dx, 1,
                             (here - snow_height(place.x, z + dz, footprint)) / dz - kRise});
    double sun = sun_past_trees(place);
    if (sun > 0) sun *= sun_past_hut(place + Vec{0, 0.01, 0});
    sight.meets({reflected(0.9, normal, sun), share});
}

void see_mountains_and_sky(Sight& sight) {
    sight.meets(mountain(sight.u, sight.v, sight.spot));
    if (!sight.ends()) sight.meets({sky(sight.u, sight.v), 1});
}

}  // namespace fogproof::demo
