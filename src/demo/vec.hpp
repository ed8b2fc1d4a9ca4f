// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Points and directions of the scene in metres: x to the right, y up, z into the picture.
#pragma once

#include <algorithm>
#include <cmath>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

struct Vec {
    double x = 0, y = 0, z = 0;

    friend constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend constexpr Vec operator*(Vec a, double b) { return {a.x * b, a.y * b, a.z * b}; }
    friend constexpr Vec operator*(double b, Vec a) { return a * b; }
};

[[nodiscard]] constexpr double dot(Vec a, Vec b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
[[nodiscard]] inline double length(Vec a) {
    return std::sqrt(dot(a, a));
}
[[nodiscard]] inline Vec unit(Vec a) {
    return a * (1 / length(a));
}
[[nodiscard]] constexpr double mix(double a, double b, double share) {
    return a + (b - a) * share;
}

}  // namespace fogproof::demo
