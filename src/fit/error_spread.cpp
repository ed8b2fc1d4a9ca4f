// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/error_spread.hpp"

#include <utility>
#include <vector>

namespace fogproof::fit {

SharedErrors with_open_numbers(const SharedErrors& shared, const Eigen::MatrixXd& open) {
    std::vector<Eigen::Triplet<double>> cells;
    for (Eigen::Index k = 0; k < shared.outerSize(); ++k)
        for (SharedErrors::InnerIterator at(shared, k); at; ++at)
            cells.emplace_back(int(at.row()), int(at.col()), at.value());
    for (Eigen::Index i = 0; i < open.rows(); ++i)
        for (Eigen::Index j = 0; j < open.cols(); ++j)
            cells.emplace_back(int(i), int(shared.cols() + j), open(i, j));
    SharedErrors all(open.rows(), shared.cols() + open.cols());
    all.setFromTriplets(cells.begin(), cells.end());
    return all;
}

ErrorSpread::ErrorSpread(Eigen::VectorXd own, const SharedErrors& shared)
    : own_(std::move(own)), shared_(shared) {
    Eigen::VectorXd variance = own_;
    for (Eigen::Index j = 0; j < shared_.outerSize(); ++j)
        for (SharedErrors::InnerIterator at(shared_, j); at; ++at)
            variance[at.row()] += at.value() * at.value();
    unit_ = variance.cwiseSqrt();
    if (shared_.cols() == 0) return;
    SharedErrors inner = shared_.transpose() * (own_.cwiseInverse().asDiagonal() * shared_);
    SharedErrors one(shared_.cols(), shared_.cols());
    one.setIdentity();
    inner += one;
    root_.compute(inner);
}

Eigen::MatrixXd ErrorSpread::shared_in(const Eigen::MatrixXd& residuals) const {
    if (shared_.cols() == 0) return Eigen::MatrixXd(0, residuals.cols());
    const Eigen::MatrixXd weighed = own_.cwiseInverse().asDiagonal() * residuals;
    const Eigen::MatrixXd by_column = shared_.transpose() * weighed;
    return root_.solve(by_column);
}

Eigen::VectorXd ErrorSpread::whitened(const Eigen::VectorXd& residuals) const {
    Eigen::VectorXd out(length());
    const Eigen::VectorXd together = shared_in(residuals);
    out.head(own_.size()) = residuals;
    if (together.size() > 0) out.head(own_.size()) -= shared_ * together;
    out.head(own_.size()).array() /= own_.array().sqrt();
    out.tail(together.size()) = together;
    return out;
}

Eigen::MatrixXd ErrorSpread::unwhitened(const Eigen::MatrixXd& whitened) const {
    Eigen::MatrixXd residuals = own_.cwiseSqrt().asDiagonal() * whitened.topRows(own_.size());
    if (shared_.cols() > 0) residuals += shared_ * whitened.bottomRows(shared_.cols());
    return residuals;
}

double ErrorSpread::log_volume() const {
    double volume = own_.array().log().sum() / 2;
    if (shared_.cols() > 0) {
        const SharedErrors lower = root_.matrixL();
        volume += lower.diagonal().array().log().sum();
    }
    return volume;
}

}  // namespace fogproof::fit
