// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where the trees stand: a few near the hut, and the woods of the valley and the lower slopes.
#pragma once

#include <vector>

#include "demo/conifer.hpp"
#include "demo/landscape.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

struct Tree {
    double x, z, foot, height;
    std::size_t kind;
    double lit;  ///< share of sun and sky that the surroundings leave
};

class Stand {
  public:
    explicit Stand(const Landscape&);

    /// All trees, the farthest first.
    [[nodiscard]] const std::vector<Tree>& trees() const { return trees_; }
    [[nodiscard]] const Conifer& kind(const Tree& tree) const { return kinds_[tree.kind]; }
    /// Share of the sun that the trees leave at a point.
    [[nodiscard]] double sun_past(Vec) const;

  private:
    void plant(const Landscape&, double x, double z, double height, int index);
    void cast_shadows();
    std::vector<Conifer> kinds_;
    std::vector<Tree> trees_;
    std::vector<std::vector<std::size_t>>
        shaded_by_;  ///< trees whose shadow may fall on a square of the ground
};

}  // namespace fogproof::demo
