// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The tone curve of a print as numbers that a fit can move: a cubic B-spline on even knots.
#pragma once

#include <Eigen/Core>
#include <array>

#include "fogproof/rooms.hpp"

namespace fogproof::reading {

class ToneSpline {
  public:
    static constexpr int kNumbers = 18;
    /// From `low` to `high` density over the paper; it goes on level beyond.
    ToneSpline(double low, double high);
    /// Where a place lies: the first of the four numbers that count there, with their weights, and the
    /// weights that give the slope.
    struct At {
        int first;
        std::array<double, 4> weight, slope;
    };
    [[nodiscard]] At at(double over_paper) const;
    [[nodiscard]] double density(const At& at) const { return sum(at, at.weight); }
    [[nodiscard]] double slope(const At& at) const { return sum(at, at.slope); }
    /// The integral of the squared second derivative is numbers' * bends() * numbers.
    [[nodiscard]] Eigen::MatrixXd bends() const;

    Eigen::VectorXd numbers;

  private:
    [[nodiscard]] double sum(const At& at, const std::array<double, 4>& by) const;
    double low_, step_;
};

}  // namespace fogproof::reading
