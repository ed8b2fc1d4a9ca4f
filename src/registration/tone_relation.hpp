// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A rising curve through a cloud of pairs: how light a print comes out for each value of its negative.
#pragma once

#include <span>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::registration {

/// Straight between its points, level beyond them.
class ToneRelation {
  public:
    struct Pair {
        float negative, scan;
    };
    /// Medians of the pairs in bins that hold equally many, made to rise by pooling neighbours. `bins` at
    /// most.
    ToneRelation(std::vector<Pair> pairs, int bins);
    [[nodiscard]] float at(float negative) const;

  private:
    std::vector<Pair> points_;
};

}  // namespace fogproof::registration
