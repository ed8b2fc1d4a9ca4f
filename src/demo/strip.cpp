// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/strip.hpp"

#include <algorithm>
#include <cmath>

#include "demo/noise.hpp"
#include "demo/vec.hpp"

namespace fogproof::demo {

double in_perforation(double x, double y, double pixel) {
    const double from_middle = std::abs(y - 0.5 * kScanTall);
    const double row = 0.5 * kFrameTall + kEdgeAbove + 0.5 * kHoleTall;
    if (std::abs(from_middle - row) > 0.5 * kHoleTall + pixel) return 0;
    constexpr double corner = 0.5;
    const double along = x - 0.9, nearest = std::round(along / kHolePitch) * kHolePitch;
    const double qx = std::abs(along - nearest) - 0.5 * kHoleWide + corner;
    const double qy = std::abs(from_middle - row) - 0.5 * kHoleTall + corner;
    const double ox = std::max(qx, 0.0), oy = std::max(qy, 0.0);
    const double outside = std::sqrt(ox * ox + oy * oy) + std::min(std::max(qx, qy), 0.0) - corner;
    return std::clamp(0.5 - outside / pixel, 0.0, 1.0);
}

double past_holder(double x, double y) {
    // The holder lies a little out of the scanner's focus.
    constexpr double blur = 0.05;
    const double depth = std::min(std::min(x, kScanWide - x), std::min(y, kScanTall - y)) - kHolder;
    return smoothstep(-blur, blur, depth);
}

Dust::Dust() {
    constexpr int specks = 13, fibres = 1;
    for (int i = 0; i < specks; ++i)
        grits_.push_back({kScanWide * chance(i, 0, 951), kScanTall * chance(i, 1, 951),
                          0.016 + 0.03 * chance(i, 2, 951) * chance(i, 3, 951)});
    for (int i = 0; i < fibres; ++i) {
        double x = kScanWide * mix(0.25, 0.75, chance(i, 4, 957)),
               y = kScanTall * mix(0.2, 0.45, chance(i, 5, 957));
        double way = 6.3 * chance(i, 6, 957);
        const double curl = 0.02 * normal_chance(i, 7, 957);
        for (int step = 0; step < 110; ++step) {
            grits_.push_back({x, y, 0.009});
            x += 0.012 * std::cos(way);
            y += 0.012 * std::sin(way);
            way += curl + 0.03 * normal_chance(i, 20 + step, 957);
        }
    }
}

Dust Dust::near_row(double y) const {
    std::vector<Grit> near;
    for (const Grit& g : grits_)
        if (std::abs(g.y - y) < g.radius + 0.3) near.push_back(g);
    return Dust(std::move(near));
}

double Dust::past(double x, double y, double pixel) const {
    double open = 1;
    const double soft = 0.7 * pixel + 0.006;
    for (const Grit& g : grits_) {
        const double dx = x - g.x, dy = y - g.y, reach = g.radius + soft;
        if (dx * dx + dy * dy > reach * reach) continue;
        // A speck smaller than a pixel dims it by its share of the area.
        const double share = std::min(1.0, g.radius / soft);
        open = std::min(
            open, 1 - 0.75 * share * (1 - smoothstep(g.radius - soft, reach, std::sqrt(dx * dx + dy * dy))));
    }
    return open;
}

}  // namespace fogproof::demo
