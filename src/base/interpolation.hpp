// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A smooth curve through tabulated points that never overshoots them.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// Monotone piecewise-cubic Hermite interpolation (Fritsch and Butland 1984) on strictly rising abscissae.
/// Outside the table the end values hold. Throws std::invalid_argument on fewer than four points.
class MonotoneCurve {
  public:
    MonotoneCurve(std::vector<double> x, std::vector<double> y);
    [[nodiscard]] double operator()(double x) const;
    /// The same, sooner where x lies in the interval guessed or one beside it.
    [[nodiscard]] double operator()(double x, std::size_t guess) const;

  private:
    [[nodiscard]] double within(std::size_t interval, double x) const;

    std::vector<double> x_, y_, slope_;
};

/// A cubic through four values at equal distances, at a place from 0 to 1 between the middle two (Catmull and
/// Rom 1974).
[[nodiscard]] constexpr double cubic_between(double before, double from, double to, double after, double t) {
    return from + 0.5 * t *
                      (to - before +
                       t * (2 * before - 5 * from + 4 * to - after + t * (3 * (from - to) + after - before)));
}

}  // namespace fogproof::base
