// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Nonlinear least squares within bounds, by Levenberg-Marquardt with differenced derivatives, and how it
// ended. Verified on problems of the NIST Statistical Reference Datasets in least_squares_test.cpp.
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/fit/ending.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// The library that solves: "Ceres 2.1.0".
[[nodiscard]] std::string solver_library();

struct SquaresProblem {
    /// Fills in the residuals at x; false where the model does not exist.
    std::function<bool(std::span<const double> x, std::span<double> residuals)> residuals;
    /// The same for derivatives, where one number lies beside the x asked before; by several threads at once.
    /// Where it is left out the residuals are asked one after the other.
    std::function<bool(std::span<const double> x, std::span<double> residuals)> beside;
    std::size_t count = 0;  ///< of residuals
    std::vector<double> start;
    std::vector<double> lowest, highest;  ///< empty: unbounded
    int most_steps = 100;
    /// Of the differences that stand for derivatives, in units of x; 0 takes a share of each x.
    double step = 0;
    /// Both sides of x are asked for each derivative: slower, six more digits.
    bool central = false;
    /// Steps end when the cost falls by less than this share and, where that is stated, by less than this.
    double tolerance = 1e-12;
    std::optional<double> least_gain;
    /// How far the first step may go (radius of the trust region, in units of each x's own slope); Ceres
    /// widens and narrows it.
    double trust = 1e4;
};

struct SquaresSolution {
    std::vector<double> x;
    Ending ending = Ending::failed;
    int steps = 0;
    double final_cost = 0;  ///< half the sum of squares
    /// Inverse of J'J at x, row by row; empty when singular.
    std::vector<double> covariance;
    std::vector<double> jacobian;  ///< J, row by row

    [[nodiscard]] bool usable() const {
        return ending == Ending::converged || ending == Ending::out_of_steps;
    }
};

[[nodiscard]] SquaresSolution least_squares(const SquaresProblem&);

}  // namespace fogproof::fit
