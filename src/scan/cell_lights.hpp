// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The lights that one small pixel's area of a scan holds, and the few that may stand for them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/cell_rows.hpp"

namespace fogproof::scan {

/// A light in steps, and its share of the area.
struct SharedLight {
    double light, share;
};

class CellLights {
  public:
    /// Lights of lines count in so many parts of a step.
    static constexpr int kParts = 4;

    /// What was gathered before is forgotten.
    void gather(const CellRow&, const Cell& column);
    [[nodiscard]] double mean() const { return mean_; }
    /// Standard deviation, and the third moment over its cube.
    [[nodiscard]] double deviation() const { return deviation_; }
    [[nodiscard]] double skew() const { return skew_; }
    /// Brightest less darkest.
    [[nodiscard]] double span() const { return span_; }
    /// Each light once, from dark to bright; shares add up to 1.
    [[nodiscard]] const std::vector<SharedLight>& each();

  private:
    std::vector<std::uint16_t> light_;
    std::vector<float> share_;
    double mean_ = 0, deviation_ = 0, skew_ = 0, span_ = 0;
    bool sorted_ = false;
    std::vector<std::pair<std::uint16_t, float>> order_;
    std::vector<SharedLight> each_;
};

/// Gauss quadratures of some lights: of any number of points the one that keeps the most moments, and so is
/// exact for curves of up to twice that degree less one. By Stieltjes' procedure, which makes the polynomials
/// orthogonal over the lights, and the eigenvectors of their recurrence (Golub and Welsch 1969).
class LightQuadrature {
  public:
    static constexpr std::size_t kMost = 16;  ///< points

    /// Lights as CellLights::each gives them.
    explicit LightQuadrature(const std::vector<SharedLight>&);
    /// How many points are of use: no more than there are lights.
    [[nodiscard]] std::size_t most() const { return most_; }
    /// From dark to bright.
    [[nodiscard]] std::vector<SharedLight> points(std::size_t count) const;

  private:
    double middle_ = 0, half_ = 1;
    std::size_t most_ = 1;
    double diagonal_[kMost] = {}, beside_[kMost] = {};
};

}  // namespace fogproof::scan
