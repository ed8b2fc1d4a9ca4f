// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How likely the readings are, whatever the numbers of the pack: these integrated out, linear about a fit. By
// it is learnt what no single reading tells, such as how much sheets differ.
#pragma once

#include <Eigen/Dense>

#include "fit/fitter.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

class Chance {
  public:
    Chance(const Likeness&, ErrorSizes, const Fitted&);
    /// Where sheets differ by this scatter, D, and each independent bit of prior knowledge (Fitted::effect)
    /// is so many times as rough as it was.
    [[nodiscard]] double log(double sheet_scatter, const Eigen::VectorXd& rougher) const;

  private:
    Eigen::Index first_, sheets_;
    Eigen::MatrixXd apart_, through_;
    SharedErrors between_;
};

}  // namespace fogproof::fit
