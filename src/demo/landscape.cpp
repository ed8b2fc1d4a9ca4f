// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/landscape.hpp"

#include "demo/mountains.hpp"
#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr double kValleyDrop = 70, kMeadowEnd = 340;

Jet mountain_at(const Grid& grid, Jet x, Jet z) {
    const Jet h = grid.smooth(x.v, z.v);
    return {h.v, h.dx * x.dx + h.dz * z.dx, h.dx * x.dz + h.dz * z.dz};
}
double mountain_at(const Grid& grid, double x, double z) {
    return grid.smooth(x, z).v;
}

// Wind has combed the crust: short ridges across its way, steep on the lee side, in patches.
template <class N>
N ripples(N x, N z, double footprint) {
    const N along = 0.83 * x - 0.56 * z, across = 0.56 * x + 0.83 * z;
    const N bent = across + 0.22 * fractal(x, z, {1.7, 2, 0.5, 211}, footprint);
    const N patch = smoothstep(-0.35, 0.45, fractal(x, z, {5.5, 3, 0.55, 223}, footprint));
    const N ridges = soft_abs(fractal(bent * 2.6, along * 0.75, {1.0, 2, 0.45, 229}, footprint * 2.6), 0.06);
    const N broad = fractal(bent * 0.75, along * 0.28, {1.0, 2, 0.5, 233}, footprint * 0.75);
    return patch * (ridges * -0.030) + broad * 0.075;
}

}  // namespace

Landscape::Landscape() : mountains_(eroded_mountains()) {
    shade_ = shadow_heights(mountains_, kToSun);
}

template <class N>
N Landscape::meadow(N x, N z, double footprint) const {
    N h = 0.95 * fractal(x + 7.0, z + 3.0, {38, 2, 0.4, 201}, footprint) +
          0.16 * fractal(x, z * 1.4, {7.5, 3, 0.42, 205}, footprint);
    if (footprint < 0.5) h = h + ripples(x, z, footprint);
    if (footprint < 0.02) h = h + 0.0022 * fractal(x, z, {0.09, 3, 0.5, 241}, footprint);
    // Snow has drifted up against the walls of the hut.
    const HutPlace hut;
    const double c = std::cos(hut.turn), s = std::sin(hut.turn);
    const N px = c * (x - hut.x) - s * (z - hut.z), pz = s * (x - hut.x) + c * (z - hut.z);
    h = h + (0.25 * noise(x * 0.7, z * 0.7, 247) + 0.50) *
                (bell(px * (1 / (hut.half_width + 1.2))) * bell(pz * (1 / (hut.half_depth + 1.2))));
    return h - footmarks_.depth(x, z);
}

template <class N>
N Landscape::ground(N x, N z, double footprint) const {
    const double distance = value(z);
    // Up to the hut the meadow climbs a little; behind it falls away towards the valley.
    N h = 0.9 * smoothstep(6.0, 34.0, z) - kValleyDrop * smoothstep(46.0, 800.0, z);
    h = h - 0.012 * (x * smoothstep(10.0, 60.0, z));
    if (distance < kMeadowEnd)
        h = h + meadow(x, z, footprint) * (x * 0.0 + 1.0 - smoothstep(120.0, kMeadowEnd, z));
    if (distance > 100)
        h = h + 14.0 * (fractal(x, z, {420, 5, 0.45, 251}, footprint) * smoothstep(100.0, 700.0, z));
    if (distance > 900) {
        const N land = mountain_at(mountains_, x, z);
        const N rough = smoothstep(60.0, 500.0, land);
        h = h + land * smoothstep(900.0, 1500.0, z);
        h = h + 26.0 * (rough * (soft_abs(fractal(x, z, {150, 6, 0.52, 263}, footprint), 0.02) * -1.0));
    }
    return h;
}

double Landscape::sun(double x, double y, double z) const {
    if (z > 1200) {
        const double above = y + kValleyDrop - shade_.smooth(x, z).v;
        return smoothstep(-10.0, 14.0, above);
    }
    double open = 1;
    if (!Footmarks::near_path(x, z)) return open;
    for (double t = 0.02; t < 0.9; t *= 1.35) {
        const Vec p = Vec{x, y, z} + t * kToSun;
        const double clear = (p.y - height(p.x, p.z, 0.03)) / t;
        open = std::min(open, smoothstep(-0.10, 0.06, clear));
        if (open <= 0) break;
    }
    return open;
}

double Landscape::rock(double x, double z, const Jet& surface, double footprint) const {
    if (z < 1200) return 0;
    const double steep = std::sqrt(surface.dx * surface.dx + surface.dz * surface.dz);
    const double ragged = 0.55 * fractal(x, z * 0.8 + surface.v * 0.9, {60, 5, 0.6, 271}, footprint);
    return smoothstep(0.86, 1.08, steep + ragged);
}

double Landscape::woods(double x, double z) const {
    if (z < 150) return 0;
    const double height_here = z > 900 ? mountains_.smooth(x, z).v : 0;
    const double line = 300 + 160 * fractal(x, z, {500, 3, 0.5, 281});
    const double glade = smoothstep(-0.25, 0.2, fractal(x + 900, z, {330, 4, 0.55, 283}) + 0.06);
    return glade * (1 - smoothstep(0.55 * line, line, height_here)) * smoothstep(150.0, 420.0, z);
}

template double Landscape::ground(double, double, double) const;
template Jet Landscape::ground(Jet, Jet, double) const;

}  // namespace fogproof::demo
