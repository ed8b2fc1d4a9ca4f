// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much sheets of one pack differ, from how much its strips do. Every sheet is taken to be off by one
// density of its own, normal with standard deviation s; the chance of the readings under each s, the numbers
// of the pack integrated out, weighs s from 0 up (restricted likelihood: Patterson and Thompson 1971). The
// laws' misses of a whole strip count as the sheet's where no strip was repeated, which errs to the wide
// side.
#include <Eigen/Eigenvalues>
#include <array>
#include <cmath>

#include "calibrate/fitter.hpp"

namespace fogproof {
namespace {

// D; a half normal distribution of this scale before any reading: timers, temperatures and coatings that err
// by a hundredth or two leave a density so much off. Judgement.
constexpr double kUsual = 0.015;
constexpr double kHalfNormalDeviation = 0.6028;  // of scale 1: sqrt(1 - 2 / pi)
constexpr double kFinest = 0.00025, kWidest = 0.15;

}  // namespace

SheetScatter usual_sheet_scatter() {
    return {kUsual, kUsual * kHalfNormalDeviation};
}

SheetScatter learnt_sheet_scatter(const Likeness& likeness, Errors errors, const Fitted& fit) {
    const Eigen::MatrixXd& on_sheet = likeness.on_sheet();
    if (on_sheet.cols() == 0) return usual_sheet_scatter();
    errors.sheet = 0;
    const Eigen::LLT<Eigen::MatrixXd> without(likeness.covariance(errors) +
                                              fit.effect * fit.effect.transpose());
    const Eigen::MatrixXd weighed = without.solve(on_sheet);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> told(on_sheet.transpose() * weighed);
    const Eigen::ArrayXd strength = told.eigenvalues().cwiseMax(0);
    const Eigen::ArrayXd seen =
        (told.eigenvectors().transpose() * (weighed.transpose() * fit.at_prior)).array().square();
    std::vector<std::array<double, 2>> tried;
    double best = -std::numeric_limits<double>::infinity();
    for (double s = 0; s <= kWidest; s += kFinest) {
        const Eigen::ArrayXd grown = 1 + s * s * strength;
        const double log_weight =
            0.5 * (s * s * seen / grown - grown.log()).sum() - s * s / (2 * kUsual * kUsual);
        tried.push_back({s, log_weight});
        best = std::max(best, log_weight);
    }
    double all = 0, mean = 0, square = 0;
    for (const auto& [s, log_weight] : tried) {
        const double weight = std::exp(log_weight - best);
        all += weight, mean += weight * s, square += weight * s * s;
    }
    mean /= all, square /= all;
    return {std::sqrt(square), std::sqrt(std::max(square - mean * mean, 0.0))};
}

Eigen::VectorXd sheet_shifts(const Likeness& likeness, const Errors& errors,
                             const Eigen::VectorXd& residuals) {
    return errors.sheet * errors.sheet * likeness.on_sheet().transpose() *
           likeness.covariance(errors).llt().solve(residuals);
}

}  // namespace fogproof
