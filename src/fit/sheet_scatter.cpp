// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much sheets of one pack differ, from how much its strips do. Every sheet is taken to be off by a
// density and by a light of its own (kSheetInLight), normal and in proportion to one scatter s; the chance
// of the readings under each s, the numbers of the pack integrated out, weighs s from 0 up (restricted
// likelihood: Patterson and Thompson 1971). The laws' misses of a whole strip count as the sheet's where no
// strip was repeated, which errs to the wide side.
#include <algorithm>
#include <cmath>
#include <limits>

#include "fit/chance.hpp"
#include "fit/fitter.hpp"

namespace fogproof::fit {
namespace {

// D; a half normal distribution of this scale before any reading: timers, temperatures and coatings that err
// by two or three hundredths leave a density so much off. Judgement.
constexpr double kUsual = 0.02;
constexpr double kHalfNormalDeviation = 0.6028;  // of scale 1: sqrt(1 - 2 / pi)
// D; scatters that are weighed lie so far apart, up to the widest. All are where they may have a weight worth
// its name; elsewhere every so many do.
constexpr double kFinest = 0.00025;
constexpr std::size_t kFineSteps = 600, kCoarse = 20;
constexpr double kNothing = 40;  // power of e

}  // namespace

SheetScatter usual_sheet_scatter() {
    return {kUsual, kUsual * kHalfNormalDeviation};
}

SheetScatter learnt_sheet_scatter(const Likeness& likeness, ErrorSizes errors, const Fitted& fit) {
    if (likeness.sheets() == 0) return usual_sheet_scatter();
    const Chance chance(likeness, errors, fit);
    const Eigen::VectorXd usual = Eigen::VectorXd::Ones(fit.effect.cols());
    std::vector<double> log_weights(kFineSteps + 1, -std::numeric_limits<double>::infinity());
    const auto ask = [&](std::size_t step) {
        if (std::isinf(log_weights[step])) {
            const double s = double(step) * kFinest;
            log_weights[step] = chance.log(s, usual) - s * s / (2 * kUsual * kUsual);
        }
    };
    for (std::size_t step = 0; step <= kFineSteps; step += kCoarse) ask(step);
    const auto top = std::ranges::max_element(log_weights) - log_weights.begin();
    const double highest = log_weights[std::size_t(top)];
    for (std::size_t step = 0; step < kFineSteps; step += kCoarse) {
        const bool beside_top = step == std::size_t(top) || step + kCoarse == std::size_t(top);
        if (beside_top || std::max(log_weights[step], log_weights[step + kCoarse]) > highest - kNothing)
            for (std::size_t fine = step + 1; fine < step + kCoarse; ++fine) ask(fine);
    }
    const double best = *std::ranges::max_element(log_weights);
    double all = 0, mean = 0, square = 0;
    for (std::size_t step = 0; step <= kFineSteps; ++step) {
        const double s = double(step) * kFinest, weight = std::exp(log_weights[step] - best);
        all += weight, mean += weight * s, square += weight * s * s;
    }
    mean /= all, square /= all;
    return {std::sqrt(square), std::sqrt(std::max(square - mean * mean, 0.0))};
}

}  // namespace fogproof::fit
