// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The way from a negative to the easel: every density of it becomes light on the paper.
#pragma once

#include <utility>
#include <vector>

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::enlarger {

/// One negative exposed once or through several filters, with or without a flash.
class Projection {
  public:
    /// mean_transmitted: the frame's own mean of 10^(-Q Dn), spread by flare.
    Projection(const Enlarger& enlarger, double mean_transmitted, std::vector<Exposure> exposures,
               std::vector<Exposure> flashes)
        : enlarger_(enlarger),
          mean_transmitted_(mean_transmitted),
          exposures_(std::move(exposures)),
          flashes_(std::move(flashes)) {}

    [[nodiscard]] EaselLight light(NegativeDensity density) const {
        return light_at_easel(density, mean_transmitted_, enlarger_, exposures_, flashes_);
    }

  private:
    Enlarger enlarger_;
    double mean_transmitted_;
    std::vector<Exposure> exposures_, flashes_;
};

}  // namespace fogproof::enlarger
