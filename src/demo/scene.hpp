// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A hut in the snow, in metres: x to the right, y up, z into the picture, the eye at the origin. A place in
// the picture is the direction (u, v, 1). Light is told in units of white paper square to the sun.
#pragma once

#include <cmath>
#include <cstdint>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

struct Vec {
    double x = 0, y = 0, z = 0;

    friend constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend constexpr Vec operator*(double b, Vec a) { return {a.x * b, a.y * b, a.z * b}; }
};
[[nodiscard]] constexpr double dot(Vec a, Vec b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
[[nodiscard]] inline Vec unit(Vec a) {
    return 1 / std::sqrt(dot(a, a)) * a;
}

inline constexpr Vec kToSun{-0.8145, 0.2531, -0.5220};  // low in the left, behind the camera
/// Light from a surface on which a share of the sun falls and which a share of the sky sees.
[[nodiscard]] double reflected(double reflectance, Vec normal, double sun, double open = 1);
/// The ground is a plane that rises gently, up to where the wood begins; drifts are slopes, not heights.
inline constexpr double kEyeHeight = 1.68, kRise = 0.03, kMeadowEnd = 130;
[[nodiscard]] constexpr double ground(double z) {
    return kRise * z - kEyeHeight;
}

/// What stands in a line of sight: its light, and the share of the point that it hides.
struct Cover {
    double light = 0, share = 0;
};
/// The light of a point, gathered from near to far until nothing further is seen; `spot` is its size.
struct Sight {
    double u, v, spot;
    double light = 0, left = 1;

    void meets(Cover cover) {
        light += left * cover.share * cover.light;
        left *= 1 - cover.share;
    }
    [[nodiscard]] bool ends() const { return left < 0.004; }
};
// Everything there is, from near to far.
void see_hut(Sight&);
void see_trees(Sight&);
void see_meadow(Sight&);
void see_wood(Sight&);
void see_mountains_and_sky(Sight&);

/// Light of what lies at a distance, seen through the air.
[[nodiscard]] double hazy(double light, double v, double distance);
/// Share of the sun that trees and the hut leave to a place.
[[nodiscard]] double sun_past_trees(Vec place);
[[nodiscard]] double sun_past_hut(Vec place);

}  // namespace fogproof::demo
