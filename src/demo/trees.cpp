// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Conifers under snow, on the meadow and in the wood behind.
#include <algorithm>

#include "demo/noise.hpp"
#include "demo/scene.hpp"

namespace fogproof::demo {
namespace {

struct Tree {
    double x, z, height;
};
// Some stand outside the picture, where the sun comes from: their shadows lie on the meadow.
constexpr Tree kTrees[] = {{-8.3, 21, 9},  {-9.5, 6, 8},   {-14, 12, 11}, {-13, 3, 9},   {16.5, 44, 15},
                           {21.5, 50, 19}, {17.2, 58, 17}, {-23, 60, 15}, {-30, 66, 20}, {-17, 72, 11}};
constexpr double kSlenderness = 0.18;  // longest bough for the height
constexpr int kWhorls = 24, kBoughs = 7;

double longest_bough(double up) {
    const double below_top = std::max(0.0, 1 - up);
    return kSlenderness * below_top * (1.3 - 0.3 * below_top) + 0.004;
}

// A conifer 1 high, `across` from its trunk in the same unit.
Cover conifer(double across, double up, double pixel, std::uint32_t kind) {
    if (up < 0 || up > 1 + pixel || std::abs(across) > 1.4 * longest_bough(up) + pixel) return {};
    across *= 0.85 + 0.35 * chance(0, 0, kind);
    const double rough = fractal(across + (kind & 511), up, {0.045, 5, 0.7, 651}, 0.7 * pixel);
    // The needles near the trunk are all shade.
    const double body = 0.50 * longest_bough(up) * (1 + 0.6 * rough);
    Cover tree{0.012, smoothstep(pixel, -pixel, std::abs(across) - body)};
    const int whorl = whole_below(up * kWhorls);
    for (int n = std::max(1, whorl - 1); n <= whorl + 3; ++n)
        for (int k = 0; k < kBoughs; ++k) {
            // Boughs from those behind the trunk to those before it, by turns to the left and to the right.
            const double to_us = (2 * k + 1.0) / kBoughs - 1, side = k % 2 == 0 ? -1 : 1;
            if (side * across < -0.25 * longest_bough(up)) continue;
            const double right = side * std::sqrt(1 - to_us * to_us) * (0.7 + 0.5 * chance(n, -k, kind));
            const double root = (n + chance(n, k, kind)) / kWhorls;
            const double length = longest_bough(root) * (0.65 + 0.5 * chance(k, n, kind));
            const double out = across / (right * length);  // 0 at the trunk, 1 at the tip
            if (out < -0.2 || out > 1) continue;
            const double thick = length * 0.17 * (1 - out * out) + 0.0015;
            const double sunk = length * (0.10 + 0.42 * out * out + 0.2 * (to_us > 0.8));
            const double above = (up - root + sunk) / thick + (1.1 - 0.8 * out) * rough;
            const double soft = 0.15 + 0.7 * pixel / thick;
            const double share =
                smoothstep(1 + soft, 1 - soft, std::abs(above)) * smoothstep(-0.2, 0.05, out + 0.2 * rough);
            if (share <= 0) continue;
            // Snow on top, darker towards the underside; the sun comes from the left and behind us.
            const double lit =
                std::clamp(0.42 - 0.40 * across / longest_bough(up) + 0.2 * to_us - 0.1 * right, 0.0, 1.0);
            const double snow = smoothstep(-0.2, 0.5, above) * smoothstep(1, 0.9, out);
            const double light =
                mix(0.012 + 0.05 * lit * (1 + above), 0.09 + 0.6 * lit * (0.7 + 0.3 * above), snow);
            tree.light = mix(tree.light, light, share);
            tree.share = std::max(tree.share, share);
        }
    // The lowest boughs lie in the snow.
    tree.share *= smoothstep(0, 0.02, up + 0.03 * rough);
    return tree;
}

Cover seen(const Tree& tree, double across, double up, double pixel) {
    const auto kind = std::uint32_t(std::abs(tree.x * 10) + tree.z);
    return conifer(across / tree.height, up / tree.height, pixel / tree.height, kind);
}

}  // namespace

void see_trees(Sight& sight) {
    for (const Tree& tree : kTrees)
        sight.meets(
            seen(tree, sight.u * tree.z - tree.x, sight.v * tree.z - ground(tree.z), sight.spot * tree.z));
}

double sun_past_trees(Vec place) {
    double open = 1;
    const double level = std::hypot(kToSun.x, kToSun.z), sx = kToSun.x / level, sz = kToSun.z / level;
    for (const Tree& tree : kTrees) {
        const double dx = tree.x - place.x, dz = tree.z - place.z, way = dx * sx + dz * sz;
        const double up = place.y - ground(tree.z) + way * kToSun.y / level;
        // The sun's disc blurs a shadow by a hundredth of its way.
        if (way > 0) open *= 1 - 0.95 * seen(tree, dx * sz - dz * sx, up, 0.05 + 0.01 * way).share;
    }
    return open;
}

// Rows of trees up a slope beyond the meadow, the farther the smaller, with glades between.
void see_wood(Sight& sight) {
    constexpr int kRows = 14;
    constexpr double kTallest = 19, kApart = 4.4;
    const double u = sight.u, v = sight.v;
    for (int row = 0; row < kRows && !sight.ends(); ++row) {
        const double z = kMeadowEnd * std::pow(1.15, row);
        const double foot = (ground(z) + 0.10 * (z - kMeadowEnd) * (1 + 1.5 * std::abs(u + 0.14))) / z +
                            0.010 * noise(7 * u, 0.7 * row, 601);
        if (v > foot + kTallest / z) continue;
        const double glade = 0.30 - 0.02 * row + noise(4 * u, 0.4 * row, 617) + noise(9 * u, row, 618);
        const int near = whole_below(u * z / kApart);
        for (int i = near - 1; i <= near + 1; ++i) {
            if (chance(i, row, 613) > 0.6 + glade) continue;
            const double height = kTallest * (0.5 + 0.5 * chance(i, row, 619)) * (0.8 + 0.2 * glade);
            const double across = u * z - kApart * (i + chance(i, row, 611)),
                         up = (v - foot) * z + chance(i, row, 623);
            const Cover tree =
                conifer(across / height, up / height, sight.spot * z / height, hashed(i, row, 631));
            sight.meets({hazy(tree.light, v, 4 * z), tree.share});
        }
        const double floor = 0.28 + 0.3 * fractal(u * z, v * z * 3, {9, 4, 0.6, 607}, sight.spot * z);
        sight.meets({hazy(floor, v, 4 * z), std::clamp(0.5 + (foot - v) / (2 * sight.spot), 0.0, 1.0)});
    }
}

}  // namespace fogproof::demo
