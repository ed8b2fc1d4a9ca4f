// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A turned rectangle in an image, with coordinates of its own: u along it, v across, in pixels.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::reading {

struct StripPlace {
    double middle_x = 0, middle_y = 0;
    double angle = 0;  ///< of the direction of u, radians
    double length = 0, width = 0;
    bool is_faint = false;  ///< hardly told from what lies behind it

    [[nodiscard]] std::pair<double, double> at(double u, double v) const {
        const double du = u - length / 2, dv = v - width / 2, c = std::cos(angle), s = std::sin(angle);
        return {middle_x + du * c - dv * s, middle_y + du * s + dv * c};
    }
    [[nodiscard]] std::pair<double, double> uv(double x, double y) const {
        const double dx = x - middle_x, dy = y - middle_y, c = std::cos(angle), s = std::sin(angle);
        return {length / 2 + dx * c + dy * s, width / 2 - dx * s + dy * c};
    }
    [[nodiscard]] std::array<std::pair<double, double>, 4> corners(double u0, double u1, double v0,
                                                                   double v1) const {
        return {at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)};
    }
    /// The same rectangle with its sides exchanged.
    [[nodiscard]] StripPlace turned() const {
        return {middle_x, middle_y, angle + std::acos(0.0), width, length, is_faint};
    }
};

}  // namespace fogproof::reading
