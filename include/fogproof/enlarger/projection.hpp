// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The way from a negative to the easel: every density of it becomes light on the paper, at every place that
// local work tells apart.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::enlarger {

/// What one place of the easel gets: one exposure or several through different filters, with or without a
/// flash.
struct Lighting {
    std::vector<Exposure> exposures, flashes;
};

class Projection {
  public:
    /// Every place gets the same. mean_transmitted: the frame's own mean of 10^(-Q Dn), 0 to 1, spread by
    /// flare.
    Projection(const Enlarger& enlarger, double mean_transmitted, std::vector<Exposure> exposures,
               std::vector<Exposure> flashes)
        : Projection(enlarger, mean_transmitted, {{std::move(exposures), std::move(flashes)}}) {}
    Projection(const Enlarger& enlarger, double mean_transmitted, std::vector<Lighting> places)
        : enlarger_(enlarger), mean_transmitted_(mean_transmitted), places_(std::move(places)) {}

    [[nodiscard]] std::size_t places() const { return places_.size(); }
    /// Of a density over base + fog, at a place below places(); seconds of each kind of light.
    [[nodiscard]] EaselLight light(NegativeDensity density, std::size_t place = 0) const {
        const Lighting& here = places_[place];
        return light_at_easel(density, mean_transmitted_, enlarger_, here.exposures, here.flashes);
    }

  private:
    Enlarger enlarger_;
    double mean_transmitted_;
    std::vector<Lighting> places_;
};

}  // namespace fogproof::enlarger
