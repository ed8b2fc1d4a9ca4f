// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Somebody has walked to the hut: a line of prints in the snow.
#pragma once

#include <vector>

#include "demo/jet.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

class Footmarks {
  public:
    Footmarks();
    /// How much the snow is pressed down (or raised at the rims) at a point.
    [[nodiscard]] double depth(double x, double z) const { return pressed(x, z); }
    [[nodiscard]] Jet depth(Jet x, Jet z) const { return pressed(x, z); }
    /// True where a print or its shadow may lie.
    [[nodiscard]] static bool near_path(double x, double z);

  private:
    struct Mark {
        double x, z, along_x, along_z, deep;
    };
    template <class N>
    [[nodiscard]] N pressed(N x, N z) const;
    std::vector<Mark> marks_;
    std::vector<std::vector<std::size_t>> by_distance_;
};

}  // namespace fogproof::demo
