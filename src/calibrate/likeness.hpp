// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which readings err together: those of one sheet, which is a little darker or lighter than the next one
// as a whole, and those of one patch made twice, which the laws miss alike.
#pragma once

#include <Eigen/Dense>
#include <span>
#include <string>
#include <tuple>
#include <vector>

#include "fogproof/calibrate/predictor.hpp"

namespace fogproof {

/// Errors of one reading, standard deviations in D.
struct Errors {
    double reading = 0.01;  ///< of the instrument, from one patch to the next
    double law = 0;         ///< of the laws, alike for neighbouring patches
    double sheet = 0.015;   ///< of a sheet as a whole
};

/// What was done to a piece of paper after the light: filter first, since filters need sheets of their own.
using Treatment = std::tuple<double, double, double, double, double, double>;
[[nodiscard]] Treatment treatment_of(const Patched&);

class Likeness {
  public:
    Likeness(std::span<const Reading>, const Pack& nominal);

    [[nodiscard]] const std::vector<Patched>& patches() const { return patches_; }
    /// One column a sheet, 1 where a reading lies on it. A slip that was only fixed has no silver to differ
    /// by.
    [[nodiscard]] const Eigen::MatrixXd& on_sheet() const { return on_sheet_; }
    [[nodiscard]] Eigen::MatrixXd covariance(const Errors&) const;

  private:
    std::vector<Patched> patches_;
    Eigen::MatrixXd on_sheet_, same_patch_;
};

}  // namespace fogproof
