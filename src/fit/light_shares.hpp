// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Share of grains that light through one filter makes developable, tabulated for very many patches.
#pragma once

#include <vector>

#include "fogproof/emulsion/emulsion.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

class LightShares {
  public:
    /// Of grains that spread so, log10.
    LightShares(const GrainPopulation&, double spread, const Filter&);
    [[nodiscard]] bool serves(const Filter& filter) const {
        return filter.blue == filter_.blue && filter.green == filter_.green;
    }
    /// At a log10 exposure above the threshold; beyond the table worked out in full.
    [[nodiscard]] double operator()(const GrainPopulation&, double log_over_threshold) const;

  private:
    Filter filter_;
    double per_unit_;
    std::vector<double> share_;
};

}  // namespace fogproof::fit
