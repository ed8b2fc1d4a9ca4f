// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/symmetric_system.hpp"

#include <Eigen/Cholesky>

namespace fogproof::base {

Eigen::MatrixXd solved(const Eigen::MatrixXd& matrix, const Eigen::MatrixXd& right) {
    return matrix.ldlt().solve(right);
}

Eigen::MatrixXd solved_positive(const Eigen::MatrixXd& matrix, const Eigen::MatrixXd& right) {
    return matrix.llt().solve(right);
}

}  // namespace fogproof::base
