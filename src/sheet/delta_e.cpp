// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// CIEDE2000 as Sharma, Wu and Dalal, Color Res. Appl. 30, 21 (2005), set it out, equations 2 to 22.
#include <cmath>
#include <numbers>

#include "fogproof/sheet/colour.hpp"

namespace fogproof {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

double hue_degrees(double a, double b) {
    if (a == 0.0 && b == 0.0) return 0.0;
    const double h = std::atan2(b, a) / kDegree;
    return h < 0.0 ? h + 360.0 : h;
}

double seventh_root_share(double chroma) {
    const double c7 = std::pow(chroma, 7);
    return std::sqrt(c7 / (c7 + 6103515625.0));  // 25^7
}

}  // namespace

double delta_e_2000(const Lab& one, const Lab& two) {
    const double mean_c = (std::hypot(one.a, one.b) + std::hypot(two.a, two.b)) / 2.0;
    const double stretch = 1.0 + 0.5 * (1.0 - seventh_root_share(mean_c));
    const double a1 = stretch * one.a, a2 = stretch * two.a;
    const double c1 = std::hypot(a1, one.b), c2 = std::hypot(a2, two.b);
    const double h1 = hue_degrees(a1, one.b), h2 = hue_degrees(a2, two.b);

    const bool grey = c1 * c2 == 0.0;
    double dh = grey ? 0.0 : h2 - h1;
    if (dh > 180.0) dh -= 360.0;
    if (dh < -180.0) dh += 360.0;
    const double dl = two.l - one.l, dc = c2 - c1;
    const double dhue = 2.0 * std::sqrt(c1 * c2) * std::sin(dh / 2.0 * kDegree);

    const double l = (one.l + two.l) / 2.0, c = (c1 + c2) / 2.0;
    double h = h1 + h2;
    if (!grey) {
        if (std::abs(h1 - h2) > 180.0) h += h < 360.0 ? 360.0 : -360.0;
        h /= 2.0;
    }
    const double t = 1.0 - 0.17 * std::cos((h - 30.0) * kDegree) + 0.24 * std::cos(2.0 * h * kDegree) +
                     0.32 * std::cos((3.0 * h + 6.0) * kDegree) - 0.20 * std::cos((4.0 * h - 63.0) * kDegree);
    const double turn = 30.0 * std::exp(-std::pow((h - 275.0) / 25.0, 2));
    const double from_grey = (l - 50.0) * (l - 50.0);
    const double sl = 1.0 + 0.015 * from_grey / std::sqrt(20.0 + from_grey);
    const double sc = 1.0 + 0.045 * c, sh = 1.0 + 0.015 * c * t;
    const double rt = -std::sin(2.0 * turn * kDegree) * 2.0 * seventh_root_share(c);
    const double x = dl / sl, y = dc / sc, z = dhue / sh;
    // Rounding can push the sum of a tiny difference below nought.
    return std::sqrt(std::fmax(0.0, x * x + y * y + z * z + rt * y * z));
}

}  // namespace fogproof
