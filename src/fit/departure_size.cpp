// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far this paper departs from the laws, from how well they fit: some factors on the usual departure are
// weighed by the chance of the readings under each, the numbers of the pack integrated out.
#include <algorithm>
#include <array>
#include <cmath>

#include "fit/chance.hpp"
#include "fit/fitter.hpp"

namespace fogproof::fit {
namespace {

constexpr std::array kFactors{0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0};
// ln; papers depart more or less than usual by a factor that spreads so. Judgement.
constexpr double kSpread = 0.5;

}  // namespace

double learnt_departure(const Prior& prior, const Likeness& likeness, const ErrorSizes& errors,
                        const Fitted& fit, double factor_now) {
    const Chance chance(likeness, errors, fit);
    std::vector<bool> departs;
    for (std::size_t i = 0; i < prior.unknowns.size(); ++i)
        if (fit.active[i]) departs.push_back(prior.unknowns[i].is_departure);
    std::array<double, kFactors.size()> weight{};
    for (std::size_t k = 0; k < kFactors.size(); ++k) {
        Eigen::VectorXd rougher = Eigen::VectorXd::Ones(fit.effect.cols());
        for (std::size_t i = 0; i < departs.size(); ++i)
            if (departs[i]) rougher[Eigen::Index(i)] = kFactors[k] / factor_now;
        const double usual = std::log(kFactors[k]) / kSpread;
        weight[k] = chance.log(errors.sheet, rougher) - usual * usual / 2;
    }
    const double best = std::ranges::max(weight);
    double all = 0, square = 0;
    for (std::size_t k = 0; k < kFactors.size(); ++k) {
        const double w = std::exp(weight[k] - best);
        all += w, square += w * kFactors[k] * kFactors[k];
    }
    return std::sqrt(square / all);
}

}  // namespace fogproof::fit
