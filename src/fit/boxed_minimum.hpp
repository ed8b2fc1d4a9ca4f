// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <Eigen/Core>
#include <vector>

namespace fogproof::fit {

/// Where a quadratic is least within bounds.
struct BoxedMinimum {
    Eigen::VectorXd at;
    std::vector<int> held;  ///< numbers that a bound keeps from going farther, in order
};

/// Of curvature x'Hx / 2 + g'x over lowest <= x <= highest, H symmetric and positive definite; 0 lies within
/// the bounds. Exact but for rounding (primal active set: Nocedal and Wright, Numerical Optimization, 16.5).
[[nodiscard]] BoxedMinimum boxed_minimum(const Eigen::MatrixXd& curvature, const Eigen::VectorXd& slope,
                                         const Eigen::VectorXd& lowest, const Eigen::VectorXd& highest);

}  // namespace fogproof::fit
