// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <cmath>
#include <numbers>

#include "fogproof/emulsion/emulsion.hpp"

namespace fogproof {
namespace {

double normal_cdf(double z) {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

// Nodes reach this many standard deviations; the weight beyond is 2e-9.
constexpr double kReach = 6.0;
// Node spacing over the width of the integrand's finest feature. A Gaussian and a Gaussian-blurred step
// multiply to a feature of width s0 sg / hypot(s0, sg); on it the trapezoidal rule errs by about 2 exp(-2
// pi^2 / spacing^2): 2e-9 here, so no ripple shows in the slope.
constexpr double kSpacing = 0.98;

}  // namespace

GrainPopulation::GrainPopulation(const Grains& grains) : spread_(grains.spread) {
    const double finest =
        grains.spread * grains.green_spread / std::hypot(grains.spread, grains.green_spread);
    const double step = kSpacing * finest;
    const int side = grains.green_spread > 0 ? int(std::ceil(kReach * grains.green_spread / step)) : 0;
    double total = 0;
    for (int i = -side; i <= side; ++i) {
        const double eta = i * step;
        const double weight =
            grains.green_spread > 0 ? std::exp(-0.5 * std::pow(eta / grains.green_spread, 2)) : 1;
        green_factor_.push_back(std::pow(10.0, eta));
        weight_.push_back(weight);
        total += weight;
    }
    for (double& weight : weight_) weight /= total;
}

double GrainPopulation::developable(EaselLight light, double log_threshold) const {
    if (light.green <= 0)
        return light.blue > 0 ? normal_cdf((std::log10(light.blue) - log_threshold) / spread_) : 0.0;
    double share = 0;
    for (std::size_t i = 0; i < weight_.size(); ++i) {
        const double effective = light.blue + light.green * green_factor_[i];
        share += weight_[i] * normal_cdf((std::log10(effective) - log_threshold) / spread_);
    }
    return share;
}

}  // namespace fogproof
