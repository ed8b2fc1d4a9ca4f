// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Prints on which a scan made small is tried: how far off a few lights of a small pixel are where all of its
// lights should be, on the print where it shows most.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "scan/cell_lights.hpp"

namespace fogproof::scan {

class TrialPrints {
  public:
    /// Each curve holds what every light, step by step, becomes on one print: light that adds up, 0 to 1.
    explicit TrialPrints(const std::vector<std::vector<float>>& curves);
    [[nodiscard]] bool none() const { return across_ == 0; }

  private:
    friend class CellTrial;
    static constexpr std::size_t kTogether = 16;
    [[nodiscard]] std::size_t row(double light) const;  // where it begins
    std::size_t across_ = 0;                            // prints, filled up to whole groups with the last
    std::vector<float> rows_;                           // of all prints, light by light
    std::vector<float> slopes_;                         // codes that one of light is worth, by light
};

/// One small pixel's tries. Not for several threads at once.
class CellTrial {
  public:
    explicit CellTrial(const TrialPrints& prints);
    /// From now on this pixel is tried, of which these are all lights.
    void of(std::span<const SharedLight> all);
    /// How many codes of 8 bits (IEC 61966-2-1) these lights are off on the print where they are most, or
    /// some number above `limit`, where it is more than that.
    [[nodiscard]] double off(std::span<const SharedLight> few, double limit);

  private:
    using Sums = std::array<float, TrialPrints::kTogether>;
    void take(std::span<const SharedLight>);
    /// Of the lights taken, on a group of prints.
    [[nodiscard]] Sums sums(std::size_t group) const;
    const TrialPrints& prints_;
    std::vector<float> exact_, codes_;  // and codes for one of light
    std::vector<std::size_t> rows_;     // of the lights taken
    std::vector<float> shares_;
    std::vector<std::size_t> order_;  // in which groups of prints are asked
};

}  // namespace fogproof::scan
