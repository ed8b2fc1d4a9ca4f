// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/scaled_prior.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::fit {

ScaledPrior::ScaledPrior(const Prior& prior, std::span<const std::size_t> active)
    : prior_(prior), active_(active) {
    const auto n = Eigen::Index(active_.size());
    mean_.resize(n);
    doubt_.resize(n);
    covariance_.resize(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const auto a = Eigen::Index(active_[std::size_t(i)]);
        mean_[i] = prior_.mean[a];
        doubt_[i] = std::sqrt(prior_.covariance(a, a));
        for (Eigen::Index j = 0; j < n; ++j)
            covariance_(i, j) = prior_.covariance(a, Eigen::Index(active_[std::size_t(j)]));
    }
    root_.compute(covariance_);
}

void ScaledPrior::bound(SquaresProblem& problem, const Eigen::VectorXd& from) const {
    for (Eigen::Index i = 0; i < size(); ++i) {
        const auto& unknown = prior_.unknowns[active_[std::size_t(i)]];
        problem.lowest.push_back((unknown.lowest - mean_[i]) / doubt_[i]);
        problem.highest.push_back((unknown.highest - mean_[i]) / doubt_[i]);
        const double u = (from[Eigen::Index(active_[std::size_t(i)])] - mean_[i]) / doubt_[i];
        problem.start.push_back(std::clamp(u, problem.lowest.back(), problem.highest.back()));
    }
}

void ScaledPrior::spread_to_all(Fitted& result, const SquaresSolution& solution) const {
    using Rows = Eigen::Matrix<double, -1, -1, Eigen::RowMajor>;
    const Eigen::Index n = size(), all = Eigen::Index(prior_.unknowns.size());
    const Eigen::MatrixXd posterior =
        doubt_.asDiagonal() * Eigen::Map<const Rows>(solution.covariance.data(), n, n) * doubt_.asDiagonal();
    Eigen::MatrixXd cross(all, n);
    for (Eigen::Index i = 0; i < n; ++i)
        cross.col(i) = prior_.covariance.col(Eigen::Index(active_[std::size_t(i)]));
    const Eigen::MatrixXd gain = root_.solve(cross.transpose()).transpose();
    Eigen::VectorXd shift(n);
    for (Eigen::Index i = 0; i < n; ++i) shift[i] = doubt_[i] * solution.x[std::size_t(i)];
    result.mean = prior_.mean + gain * shift;
    for (Eigen::Index i = 0; i < all; ++i) {
        const Unknown& unknown = prior_.unknowns[std::size_t(i)];
        result.mean[i] = std::clamp(result.mean[i], unknown.lowest, unknown.highest);
    }
    result.covariance = prior_.covariance + gain * (posterior - covariance_) * gain.transpose();
    result.free_numbers = double(n) - root_.solve(posterior).trace();
}

}  // namespace fogproof::fit
