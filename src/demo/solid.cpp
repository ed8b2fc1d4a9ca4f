// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/solid.hpp"

#include "demo/jet.hpp"

namespace fogproof::demo {
namespace {

struct Stretch {
    double begin, end;
};

// The part of a ray inside a box; empty when begin is not before end.
Stretch inside(const Solid::Box& box, Vec from, Vec direction) {
    Stretch s{0, 1e9};
    const auto cut = [&s](double low, double high, double at, double along) {
        if (std::abs(along) < 1e-12) {
            if (at < low || at > high) s.end = -1;
            return;
        }
        const double a = (low - at) / along, b = (high - at) / along;
        s.begin = std::max(s.begin, std::min(a, b));
        s.end = std::min(s.end, std::max(a, b));
    };
    cut(box.low.x, box.high.x, from.x, direction.x);
    cut(box.low.y, box.high.y, from.y, direction.y);
    cut(box.low.z, box.high.z, from.z, direction.z);
    return s;
}

constexpr int kStrides = 160;

}  // namespace

std::optional<double> Solid::hit(Vec from, Vec direction) const {
    const Stretch s = inside(bounds_, from, direction);
    double t = s.begin;
    for (int i = 0; i < kStrides && t < s.end; ++i) {
        const double d = distance(from + t * direction);
        if (d < 2e-4 * t) return t;
        t += 0.85 * d;
    }
    return std::nullopt;
}

double Solid::sun_past(Vec from, Vec to_sun) const {
    constexpr double sun_size = 0.0047;  // half angle of the sun's disc, 0.27 degrees
    const Stretch s = inside(bounds_, from, to_sun);
    double t = std::max(s.begin, 0.02), open = 1;
    for (int i = 0; i < kStrides && t < s.end && open > -1; ++i) {
        const double d = distance(from + t * to_sun);
        open = std::min(open, d / (sun_size * t + 0.004));
        t += std::clamp(0.85 * d, 0.006, 1.0);
    }
    return smoothstep(-1.0, 1.0, open);
}

double Solid::openness(Vec at, Vec normal) const {
    double closed = 0, weight = 1;
    for (double reach = 0.06; reach < 1.5; reach *= 2) {
        closed += weight * (1 - std::clamp(distance(at + reach * normal) / reach, 0.0, 1.0));
        weight *= 0.62;
    }
    return std::max(0.0, 1 - 0.62 * closed);
}

Vec Solid::normal(Vec at, double step) const {
    const Vec x{step, 0, 0}, y{0, step, 0}, z{0, 0, step};
    const Vec rise{distance(at + x) - distance(at - x), distance(at + y) - distance(at - y),
                   distance(at + z) - distance(at - z)};
    return length(rise) > 0 ? unit(rise) : Vec{0, 1, 0};
}

}  // namespace fogproof::demo
