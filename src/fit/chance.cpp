// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/chance.hpp"

namespace fogproof::fit {

Chance::Chance(const Likeness& likeness, ErrorSizes errors, const Fitted& fit)
    : first_(likeness.first_sheet()), sheets_(likeness.sheets()) {
    errors.sheet = 1;
    const Eigen::VectorXd weight = likeness.own(errors).cwiseInverse();
    const SharedErrors shared = likeness.shared(errors);
    Eigen::MatrixXd all(fit.effect.rows(), fit.effect.cols() + 1);
    all << fit.effect, fit.at_prior;
    const Eigen::MatrixXd weighed = weight.asDiagonal() * all;
    apart_ = all.transpose() * weighed;
    through_ = shared.transpose() * weighed;
    between_ = shared.transpose() * (weight.asDiagonal() * shared);
}

double Chance::log(double sheet_scatter, const Eigen::VectorXd& rougher) const {
    Eigen::VectorXd scale = Eigen::VectorXd::Ones(between_.cols());
    scale.segment(first_, sheets_).setConstant(sheet_scatter);
    SharedErrors inner = scale.asDiagonal() * between_ * scale.asDiagonal();
    SharedErrors one(inner.rows(), inner.cols());
    one.setIdentity();
    inner += one;
    const Eigen::SimplicialLLT<SharedErrors> root(inner);
    const SharedErrors lower = root.matrixL();
    const auto n = apart_.cols() - 1;
    Eigen::VectorXd by(n + 1);
    by << rougher, 1;
    const Eigen::MatrixXd scaled = scale.asDiagonal() * through_ * by.asDiagonal();
    const Eigen::MatrixXd told =
        by.asDiagonal() * apart_ * by.asDiagonal() - scaled.transpose() * Eigen::MatrixXd(root.solve(scaled));
    const Eigen::LLT<Eigen::MatrixXd> numbers(told.topLeftCorner(n, n) + Eigen::MatrixXd::Identity(n, n));
    const Eigen::VectorXd beside = told.col(n).head(n);
    const double square = told(n, n) - beside.dot(numbers.solve(beside));
    return -square / 2 - lower.diagonal().array().log().sum() -
           Eigen::MatrixXd(numbers.matrixL()).diagonal().array().log().sum();
}

}  // namespace fogproof::fit
