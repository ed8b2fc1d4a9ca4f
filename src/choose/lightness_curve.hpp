// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// L* of one way of working over log exposure, for answers asked of many states of a pack.
#pragma once

#include <vector>

#include "fogproof/print/silver_path.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

class LightnessCurve {
  public:
    /// Between two log exposures through clear film; within 0.02 L* of the model.
    LightnessCurve(const PaperModel&, const Developer&, const Filter&, const Finishing&, double from,
                   double to);
    [[nodiscard]] double operator()(double log_h) const;
    /// Without any light.
    [[nodiscard]] double border() const { return border_; }
    /// The ends of the table.
    [[nodiscard]] double from() const;
    [[nodiscard]] double to() const;

  private:
    double from_, border_ = 0;
    std::vector<double> lightness_;
};

}  // namespace fogproof::choose
