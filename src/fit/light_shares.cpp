// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/light_shares.hpp"

#include <cmath>

namespace fogproof::fit {
namespace {

// log10 exposure.
constexpr double kReach = 2.2;
// Entries within the spread of the grains; between them a cubic is within 1e-5 of the share.
constexpr double kPerSpread = 8;

double share_at(const GrainPopulation& population, const Filter& filter, double log_over_threshold) {
    const double h = std::pow(10.0, log_over_threshold);
    return population.developable({h * filter.blue, h * filter.green}, 0.0);
}

}  // namespace

LightShares::LightShares(const GrainPopulation& population, double spread, const Filter& filter)
    : filter_(filter), per_unit_(kPerSpread / spread) {
    for (int i = -1; i <= int(2 * kReach * per_unit_) + 2; ++i)
        share_.push_back(share_at(population, filter, double(i) / per_unit_ - kReach));
}

double LightShares::operator()(const GrainPopulation& population, double log_over_threshold) const {
    const double place = (log_over_threshold + kReach) * per_unit_;
    if (!(place > 0 && place < 2 * kReach * per_unit_))
        return share_at(population, filter_, log_over_threshold);
    const auto cell = std::size_t(place);
    const double t = place - double(cell);
    const double *s = &share_[cell], a = t + 1, b = t, c = t - 1, d = t - 2;
    return -b * c * d / 6 * s[0] + a * c * d / 2 * s[1] - a * b * d / 2 * s[2] + a * b * c / 6 * s[3];
}

}  // namespace fogproof::fit
