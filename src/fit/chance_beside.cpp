// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/chance_beside.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "fogproof/base/error.hpp"

namespace fogproof::fit {
namespace {

// Numbers known as well as this are known.
constexpr double kSettled = 1e-5;

// What one standard deviation of each number that the others leave open does to the readings.
Eigen::MatrixXd effect_of_doubt(Predictor& predictor, std::span<const double> middle, const Pack& paper,
                                const Fitted& others, const Prior& prior) {
    std::vector<Eigen::Index> open;
    for (Eigen::Index j = 0; j < others.covariance.rows(); ++j)
        if (others.covariance(j, j) > kSettled * kSettled) open.push_back(j);
    const auto m = Eigen::Index(middle.size()), n = Eigen::Index(open.size());
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(m, n);
    for (Eigen::Index k = 0; k < n; ++k) {
        const Eigen::Index j = open[std::size_t(k)];
        const Unknown& unknown = prior.unknowns[std::size_t(j)];
        const double deviation = std::sqrt(others.covariance(j, j)), at = others.mean[j];
        const double moved = at + deviation < unknown.highest ? at + deviation : at - deviation;
        Pack pack = paper;
        unknown.put(pack, moved);
        try {
            const auto there = predictor.densities(pack, true);
            for (Eigen::Index i = 0; i < m; ++i)
                slopes(i, k) = (there[std::size_t(i)] - middle[std::size_t(i)]) / (moved - at);
        } catch (const Error&) {
            // No such pack: the others do not doubt this number so far.
        }
    }
    const Eigen::MatrixXd together = others.covariance(open, open);
    const Eigen::LLT<Eigen::MatrixXd> root(together + 1e-12 * Eigen::MatrixXd::Identity(n, n));
    return slopes * Eigen::MatrixXd(root.matrixL());
}

}  // namespace

double log_chance_beside(const Pack& paper, const Fitted& others, const Prior& prior,
                         const ErrorSizes& errors, std::span<const Reading> some) {
    const Likeness likeness(some, prior.pack);
    Predictor predictor(prior.pack, some);
    const auto middle = predictor.densities(paper);
    const Eigen::MatrixXd open = effect_of_doubt(predictor, middle, paper, others, prior);
    const ErrorSpread spread(likeness.own(errors), with_open_numbers(likeness.shared(errors), open));
    Eigen::VectorXd residuals(open.rows());
    for (Eigen::Index i = 0; i < open.rows(); ++i) {
        const double unit = spread.unit()[i];
        residuals[i] = unit * robust((middle[std::size_t(i)] - some[std::size_t(i)].density) / unit);
    }
    return -spread.whitened(residuals).squaredNorm() / 2 - spread.log_volume();
}

}  // namespace fogproof::fit
