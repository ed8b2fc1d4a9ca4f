// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The tones of one frame: an exact histogram of its codes, read as densities.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/negative/tone.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::negative {

/// How often each code value occurs in the frame; where local work tells places apart, all codes of the first
/// place, then all of the next.
using Histogram = std::vector<std::uint64_t>;

/// All tones of a frame in rising density, then by place. Never a thumbnail: every pixel counts once.
class Tones {
  public:
    /// The histogram holds the scale once for each place. Throws Error(Fault::data) when it is empty or does
    /// not.
    Tones(const Histogram&, std::span<const NegativeDensity> scale);

    [[nodiscard]] const std::vector<Tone>& all() const { return tones_; }
    /// The density that the given share of the frame does not exceed; share in [0, 1].
    [[nodiscard]] NegativeDensity quantile(double share) const;
    /// Mean of 10^(-Q Dn) over the frame: the light that flare spreads.
    [[nodiscard]] double mean_transmitted(double callier) const;
    /// The same tones gathered into at most `count` bins of equal density width for each place, each at its
    /// mean density.
    [[nodiscard]] std::vector<Tone> gathered(std::size_t count) const;

  private:
    std::size_t places_;
    std::vector<Tone> tones_;
};

}  // namespace fogproof::negative
