// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Systems of linear equations with a symmetric matrix. They stand here, and Eigen's solvers are compiled
// once, because each use of them in a source of its own takes a compiler seconds.
#pragma once

#include <Eigen/Core>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// x of `matrix` x = `right` by Cholesky's method with square roots left out, pivoted: for matrices that are
/// positive, or zero in some directions. One column of x for each of `right`. Only the lower half of the
/// matrix is read.
[[nodiscard]] Eigen::MatrixXd solved(const Eigen::MatrixXd& matrix, const Eigen::MatrixXd& right);

/// The same by Cholesky's method in blocks, quick for hundreds of unknowns, for a matrix that is surely
/// positive.
[[nodiscard]] Eigen::MatrixXd solved_positive(const Eigen::MatrixXd& matrix, const Eigen::MatrixXd& right);

}  // namespace fogproof::base
