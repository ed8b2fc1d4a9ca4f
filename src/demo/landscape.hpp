// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The ground: a snowed-in meadow with the hut, a valley behind it and the mountains beyond.
#pragma once

#include "demo/footmarks.hpp"
#include "demo/grid.hpp"
#include "demo/vec.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// From the middle of the picture to the sun: low, from the left and a little behind the camera.
inline constexpr Vec kToSun{-0.9, 0.3934, -0.1876};

/// Where the hut stands, and which way its door looks.
struct HutPlace {
    double x = 7.6, z = 28.0, turn = 0.33;
    double half_width = 2.7, half_depth = 3.4;
};

class Landscape {
  public:
    Landscape();

    /// Height of the ground; details shorter than about three footprints are left out.
    [[nodiscard]] double height(double x, double z, double footprint) const {
        return ground(x, z, footprint);
    }
    /// Height and slope.
    [[nodiscard]] Jet surface(double x, double z, double footprint) const {
        return ground(Jet{x, 1, 0}, Jet{z, 0, 1}, footprint);
    }
    /// Share of the sun that mountains and footmarks leave at a point of the ground.
    [[nodiscard]] double sun(double x, double y, double z) const;
    /// Share of the sky seen from the bottom of a footmark.
    [[nodiscard]] double openness(double x, double z) const {
        return 1 - std::clamp(5 * footmarks_.depth(x, z), 0.0, 0.5);
    }
    /// Share of bare rock: where it is too steep for snow to stay.
    [[nodiscard]] double rock(double x, double z, const Jet& surface, double footprint) const;
    /// How densely trees stand, 0 to 1.
    [[nodiscard]] double woods(double x, double z) const;

  private:
    template <class N>
    [[nodiscard]] N ground(N x, N z, double footprint) const;
    template <class N>
    [[nodiscard]] N meadow(N x, N z, double footprint) const;
    Grid mountains_, shade_;
    Footmarks footmarks_;
};

}  // namespace fogproof::demo
