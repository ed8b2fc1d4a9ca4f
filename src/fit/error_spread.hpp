// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How readings err: each by itself, and some together through errors that they share. Their covariance is a
// diagonal and a few columns, never a square of all readings (Woodbury 1950), so what is asked of it grows as
// the readings do.
#pragma once

#include <Eigen/Dense>
#include <Eigen/Sparse>

#include "fogproof/rooms.hpp"

namespace fogproof::fit {

using SharedErrors = Eigen::SparseMatrix<double>;

/// What numbers leave open is one more set of shared errors: those there are, and behind them a column for
/// each number, what one standard deviation of it does to every reading.
[[nodiscard]] SharedErrors with_open_numbers(const SharedErrors&, const Eigen::MatrixXd& open);

class ErrorSpread {
  public:
    /// Variances of what each reading errs by itself; a column for each shared error, what one standard
    /// deviation of it does to every reading.
    ErrorSpread(Eigen::VectorXd own, const SharedErrors& shared);

    /// One standard deviation of each reading.
    [[nodiscard]] const Eigen::VectorXd& unit() const { return unit_; }
    /// Length of a whitened vector: readings, then shared errors.
    [[nodiscard]] Eigen::Index length() const { return own_.size() + shared_.cols(); }
    /// Linear in the residuals; its square is their square weighed by the inverse covariance.
    [[nodiscard]] Eigen::VectorXd whitened(const Eigen::VectorXd& residuals) const;
    /// The residuals, column by column.
    [[nodiscard]] Eigen::MatrixXd unwhitened(const Eigen::MatrixXd& whitened) const;
    /// The likeliest shared errors, in their standard deviations.
    [[nodiscard]] Eigen::MatrixXd shared_in(const Eigen::MatrixXd& residuals) const;
    /// Half the logarithm of the covariance's determinant.
    [[nodiscard]] double log_volume() const;

  private:
    Eigen::VectorXd own_, unit_;
    SharedErrors shared_;
    Eigen::SimplicialLLT<SharedErrors> root_;
};

}  // namespace fogproof::fit
