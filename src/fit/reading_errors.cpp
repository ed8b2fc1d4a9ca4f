// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Reading error and law error told apart: the error of an instrument jumps from patch to patch, that of a law
// is alike for neighbours. Readings and residuals count in units of their roughness.
#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "fit/treated_patch.hpp"

#include "fit/fitter.hpp"

namespace fogproof::fit {
namespace {

// D and how many readings' worth of belief in it. Common practice, no source.
constexpr double kUsualError = 0.01, kBelief = 2;
// D; a density rounded to 0.01 errs by 0.01 / sqrt(12).
constexpr double kRounding = 0.0029;
// A law error must stand out of the chance of its own estimate by this many standard deviations.
constexpr double kStandsOut = 1.5;

// Sum of squares and how many independent ones are in it.
struct Squares {
    double sum = 0, count = 0;
};

Squares of_repeats(std::span<const Reading> readings, std::span<const TreatedPatch> patches) {
    std::map<std::tuple<std::string, Treatment, double, double>, std::vector<double>> same;
    for (std::size_t i = 0; i < readings.size(); ++i)
        same[{readings[i].strip, treatment_of(patches[i]), patches[i].exposure_s, patches[i].wedge_density}]
            .push_back(readings[i].density);
    Squares squares;
    for (const auto& [patch, densities] : same) {
        double mean = 0;
        for (const double d : densities) mean += d / double(densities.size());
        for (const double d : densities) squares.sum += std::pow((d - mean) / roughness(mean), 2);
        squares.count += double(densities.size() - 1);
    }
    return squares;
}

// Neighbours in exposure on one strip: half the squared difference of their residuals (von Neumann 1941).
Squares of_neighbours(std::span<const Reading> readings, std::span<const TreatedPatch> patches,
                      std::span<const double> residuals) {
    std::map<std::tuple<std::string, Treatment>, std::vector<std::pair<double, double>>> strips;
    for (std::size_t i = 0; i < readings.size(); ++i)
        if (patches[i].exposure_s > 0 && patches[i].develop_s > 0)
            strips[{readings[i].strip, treatment_of(patches[i])}].emplace_back(
                std::log10(patches[i].exposure_s) - patches[i].wedge_density,
                residuals[i] / roughness(readings[i].density));
    Squares squares;
    for (auto& [strip, steps] : strips) {
        if (steps.size() < 4) continue;
        std::ranges::sort(steps);
        for (std::size_t i = 1; i < steps.size(); ++i) {
            const double jump = steps[i].second - steps[i - 1].second;
            squares.sum += jump * jump / 2 * (2.0 / 3);
            squares.count += 2.0 / 3;
        }
    }
    return squares;
}

}  // namespace

ErrorSizes learnt_errors(std::span<const Reading> readings, const Likeness& likeness,
                         const ErrorSizes& before, std::span<const double> residuals, double free_numbers) {
    const Squares repeats = of_repeats(readings, likeness.patches());
    const Squares neighbours = of_neighbours(readings, likeness.patches(), residuals);
    const double count = kBelief + repeats.count + neighbours.count;
    const double reading_square =
        (kBelief * kUsualError * kUsualError + repeats.sum + neighbours.sum) / count;
    const double n = double(readings.size());
    // Outliers are cut to what the robust fit makes of them.
    const double unit = std::sqrt(std::max(reading_square, kRounding * kRounding));
    Eigen::VectorXd cut(Eigen::Index(residuals.size())), rough(cut.size());
    for (std::size_t i = 0; i < residuals.size(); ++i)
        rough[Eigen::Index(i)] = roughness(readings[i].density);
    for (std::size_t i = 0; i < residuals.size(); ++i)
        cut[Eigen::Index(i)] =
            unit * rough[Eigen::Index(i)] * robust(residuals[i] / (unit * rough[Eigen::Index(i)]));
    const double sum = likeness.set_off(before, cut).cwiseQuotient(rough).squaredNorm();
    const double whole = (kBelief * reading_square + sum) / (kBelief + std::max(n - free_numbers, 0.25 * n));
    const double chance = kStandsOut * std::sqrt(2 / count + 2 / std::max(n - free_numbers, 1.0));
    ErrorSizes errors{unit, 0, before.sheet, true};
    if (whole > reading_square * (1 + chance)) errors.law = std::sqrt(whole - reading_square);
    return errors;
}

}  // namespace fogproof::fit
