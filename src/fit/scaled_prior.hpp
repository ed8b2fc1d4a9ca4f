// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was known before of the numbers that a fit moves, each told in deviations from its mean; and how a fit
// of those few becomes one of all.
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <span>

#include "fit/fitter.hpp"
#include "fit/least_squares.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

class ScaledPrior {
  public:
    /// `active` are places among the prior's unknowns.
    ScaledPrior(const Prior&, std::span<const std::size_t> active);

    [[nodiscard]] Eigen::Index size() const { return mean_.size(); }
    [[nodiscard]] const Eigen::VectorXd& mean() const { return mean_; }
    [[nodiscard]] const Eigen::VectorXd& doubt() const { return doubt_; }
    [[nodiscard]] const Eigen::LLT<Eigen::MatrixXd>& root() const { return root_; }

    /// Bounds and a start for each of the numbers; `from` holds all unknowns.
    void bound(SquaresProblem&, const Eigen::VectorXd& from) const;
    /// What no reading touches follows from what they do, by its correlation before any reading.
    void spread_to_all(Fitted&, const SquaresSolution&) const;

  private:
    const Prior& prior_;
    std::span<const std::size_t> active_;
    Eigen::VectorXd mean_, doubt_;
    Eigen::MatrixXd covariance_;
    Eigen::LLT<Eigen::MatrixXd> root_;
};

}  // namespace fogproof::fit
