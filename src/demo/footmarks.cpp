// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/footmarks.hpp"

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr double kStart = 3.0, kEnd = 24.5, kStride = 0.62, kReach = 1.1, kBin = 0.5;

// The middle of the path at each distance: a lazy bend from the lower left to the door.
double path(double z) {
    const double t = (z - kStart) / (kEnd - kStart);
    return -1.5 + 7.6 * t * t * (1.5 - 0.5 * t) + 0.35 * std::sin(5 * t);
}

}  // namespace

Footmarks::Footmarks() : by_distance_(std::size_t((kEnd + 2) / kBin)) {
    double z = kStart;
    for (int step = 0; z < kEnd; ++step) {
        const double slope = (path(z + 0.1) - path(z - 0.1)) / 0.2, norm = std::sqrt(1 + slope * slope);
        const double side = (step % 2 ? 1 : -1) * (0.12 + 0.03 * normal_chance(step, 0, 301));
        const double turn = 0.12 * (step % 2 ? 1 : -1) + 0.06 * normal_chance(step, 1, 301);
        const double ax = slope / norm + turn, az = 1 / norm;
        const double an = std::sqrt(ax * ax + az * az);
        const Mark mark{path(z) + side / norm, z - side * slope / norm, ax / an, az / an,
                        0.095 * (1 + 0.2 * normal_chance(step, 2, 301))};
        for (double d = mark.z - kReach; d <= mark.z + kReach; d += kBin) {
            const auto bin = std::size_t(std::max(0.0, d / kBin));
            if (bin < by_distance_.size()) by_distance_[bin].push_back(marks_.size());
        }
        marks_.push_back(mark);
        z += kStride * (1 + 0.07 * normal_chance(step, 3, 301)) / norm;
    }
}

bool Footmarks::near_path(double x, double z) {
    return z < kEnd + 1.5 && std::abs(x - path(z)) < 1.6;
}

template <class N>
N Footmarks::pressed(N x, N z) const {
    N sum = x * 0.0;
    if (!near_path(value(x), value(z)) || value(z) < 0) return sum;
    const auto bin = std::size_t(value(z) / kBin);
    if (bin >= by_distance_.size()) return sum;
    for (const std::size_t i : by_distance_[bin]) {
        const Mark& m = marks_[i];
        const N dx = x - m.x, dz = z - m.z;
        const N along = (dx * m.along_x + dz * m.along_z) * (1 / 0.155);
        const N across = (dx * m.along_z - dz * m.along_x) * (1 / 0.075);
        // A sole is narrower in the middle; loose snow crumbles over the edge.
        const N waist = across * (1.05 + 0.22 * bell(value(along) * 1.8));
        const N q = along * along + waist * waist + 0.55 * noise(x * 13.0, z * 13.0, 311);
        if (value(q) > 9) continue;
        sum = sum + (q * 0.0 + m.deep) * (q * 0.0 + 1.0 - smoothstep(0.0, 1.5, q));
        sum = sum - 0.012 * bell((q - 2.0) * 0.8);
        // Heel-first: the shoe slides in and out, leaving a shallow trail behind.
        const N trail = (along + 1.7) * 0.9;
        sum = sum + 0.035 * (bell(trail) * bell(across * 0.9));
    }
    return sum;
}

template double Footmarks::pressed(double, double) const;
template Jet Footmarks::pressed(Jet, Jet) const;

}  // namespace fogproof::demo
