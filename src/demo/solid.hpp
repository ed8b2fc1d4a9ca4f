// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Things that stand on the ground, each known by its distance function: how far any point is from its
// surface, never overestimated by much, so that a ray can stride along it.
#pragma once

#include <optional>

#include "demo/vec.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// What a surface does with light.
struct Finish {
    double reflects = 0;  ///< diffuse reflectance
    double glows = 0;     ///< luminance of its own
    bool snow = false;
};

class Solid {
  public:
    virtual ~Solid() = default;
    [[nodiscard]] virtual double distance(Vec) const = 0;
    [[nodiscard]] virtual Finish finish(Vec) const = 0;

    struct Box {
        Vec low, high;
    };
    [[nodiscard]] const Box& bounds() const { return bounds_; }

    /// Distance along the ray at which it meets the surface.
    [[nodiscard]] std::optional<double> hit(Vec from, Vec direction) const;
    /// Share of the sun's disc seen from a point past this thing.
    [[nodiscard]] double sun_past(Vec from, Vec to_sun) const;
    /// Share of the open sky above a surface that its own nooks leave.
    [[nodiscard]] double openness(Vec at, Vec normal) const;
    [[nodiscard]] Vec normal(Vec at, double step) const;

  protected:
    Box bounds_;
};

}  // namespace fogproof::demo
