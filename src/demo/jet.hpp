// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A height together with its slope: forward differentiation in the two ground coordinates. Surfaces are
// written once, as templates; with double they give heights for marching, with Jet also the slope for
// shading.
#pragma once

#include <cmath>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

struct Jet {
    double v, dx, dz;

    friend constexpr Jet operator+(Jet a, Jet b) { return {a.v + b.v, a.dx + b.dx, a.dz + b.dz}; }
    friend constexpr Jet operator+(Jet a, double b) { return {a.v + b, a.dx, a.dz}; }
    friend constexpr Jet operator-(Jet a, Jet b) { return {a.v - b.v, a.dx - b.dx, a.dz - b.dz}; }
    friend constexpr Jet operator-(Jet a, double b) { return {a.v - b, a.dx, a.dz}; }
    friend constexpr Jet operator*(Jet a, Jet b) {
        return {a.v * b.v, a.dx * b.v + a.v * b.dx, a.dz * b.v + a.v * b.dz};
    }
    friend constexpr Jet operator*(Jet a, double b) { return {a.v * b, a.dx * b, a.dz * b}; }
    friend constexpr Jet operator*(double b, Jet a) { return a * b; }
};

[[nodiscard]] constexpr double value(double a) {
    return a;
}
[[nodiscard]] constexpr double value(Jet a) {
    return a.v;
}
/// A number of kind N with the value and, where N has them, the slopes of f(a).
[[nodiscard]] constexpr double through(double, double f, double) {
    return f;
}
[[nodiscard]] constexpr Jet through(Jet a, double f, double slope) {
    return {f, slope * a.dx, slope * a.dz};
}

/// 0 below low, 1 above high, a smooth cubic between.
template <class N>
[[nodiscard]] N smoothstep(double low, double high, N a) {
    const double t = (value(a) - low) / (high - low);
    if (t <= 0) return through(a, 0, 0);
    if (t >= 1) return through(a, 1, 0);
    return through(a, t * t * (3 - 2 * t), 6 * t * (1 - t) / (high - low));
}

/// exp(-a * a)
template <class N>
[[nodiscard]] N bell(N a) {
    const double f = std::exp(-value(a) * value(a));
    return through(a, f, -2 * value(a) * f);
}

/// sqrt(a * a + r * r): |a| with a rounded corner.
template <class N>
[[nodiscard]] N soft_abs(N a, double r) {
    const double f = std::sqrt(value(a) * value(a) + r * r);
    return through(a, f, value(a) / f);
}

}  // namespace fogproof::demo
