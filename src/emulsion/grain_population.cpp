// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>
#include <utility>

#include "fogproof/emulsion/emulsion.hpp"

namespace fogproof::emulsion {
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
// Reach and entries per unit of z of a share table. Beyond 12 even the flattest bend a pack may have is
// within 1e-6 of none or all.
constexpr int kTableReach = 12, kPerUnit = 40;

using SlopeMap = RisingMap<GrainDeparture::kSlopes>;

// Bumps over the green sensitisations, which are told in their standard deviations.
double bumps(const std::array<double, GrainDeparture::kParts>& heights, double u) {
    double sum = 0;
    for (std::size_t k = 0; k < heights.size(); ++k) {
        const double middle = GrainDeparture::kPartStep * (double(k) - double(heights.size() - 1) / 2);
        sum += heights[k] * std::exp(-0.5 * std::pow((u - middle) / GrainDeparture::kPartWidth, 2));
    }
    return sum;
}

bool is_bent(const Grains& grains) {
    return grains.skew != 0 || grains.peak != 0;
}

}  // namespace

SlopeMap slope_map(const GrainDeparture& departure) {
    static constexpr std::array<double, GrainDeparture::kSlopes> kNodes{-3, -2, -1, 0, 1, 2, 3};
    return {kNodes, departure.slope, 0};
}

double bent(double z, const Grains& grains) {
    const double erf = std::erf(z / std::numbers::sqrt2);
    const double hump = std::expm1(-0.5 * z * z);
    return z + grains.skew * (z * erf + std::numbers::sqrt2 * std::numbers::inv_sqrtpi * hump) +
           grains.peak * std::sqrt(std::numbers::pi / 2) * erf;
}

double grain_probit(double z, const Grains& grains) {
    return bent(slope_map(grains.departure)(z), grains);
}

double grain_quantile(double share, const Grains& grains) {
    const SlopeMap map = slope_map(grains.departure);
    const double wanted = -std::numbers::sqrt2 * boost::math::erfc_inv(2 * share);
    // Slopes of the bend lie between 0.1 and 2.2 wherever a pack may put it, so these ends enclose the root.
    double low = -20 * std::abs(wanted) - 20, high = -low, z = wanted;
    constexpr double kClose = 1e-13;
    for (int step = 0; step < 100; ++step) {
        const double miss = bent(z, grains) - wanted;
        (miss > 0 ? high : low) = z;
        const double slope =
            1 + grains.skew * std::erf(z / std::numbers::sqrt2) + grains.peak * std::exp(-0.5 * z * z);
        double next = z - miss / slope;
        if (!(next > low && next < high)) next = (low + high) / 2;
        if (std::abs(next - z) < kClose * (1 + std::abs(z))) return map.inverse(next);
        z = next;
    }
    return map.inverse(z);
}

ShareTable::ShareTable(const Grains& grains)
    : skew_(grains.skew), peak_(grains.peak), slope_(grains.departure.slope) {
    const SlopeMap map = slope_map(grains.departure);
    std::vector<double> share;
    for (int i = -1; i <= 2 * kTableReach * kPerUnit + 2; ++i)
        share.push_back(normal_cdf(bent(map(double(i) / kPerUnit - kTableReach), grains)));
    // Cubics through the four nearest entries, between the middle two.
    for (std::size_t i = 0; i + 3 < share.size(); ++i) {
        const double *s = &share[i], third = 1.0 / 3, sixth = 1.0 / 6;
        cells_.push_back({s[1], s[2] - third * s[0] - 0.5 * s[1] - sixth * s[3], 0.5 * (s[0] + s[2]) - s[1],
                          sixth * (s[3] - s[0]) + 0.5 * (s[1] - s[2])});
    }
}

double ShareTable::operator()(double z) const {
    const double place = (z + kTableReach) * kPerUnit;
    if (!(place > 0)) return cells_.front()[0];
    if (place >= 2.0 * kTableReach * kPerUnit) return cells_.back()[0];
    const auto cell = std::size_t(place);
    const double t = place - double(cell);
    const auto& c = cells_[cell];
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

GrainPopulation::GrainPopulation(const Grains& grains, std::shared_ptr<const ShareTable> table)
    : grains_(grains), table_(std::move(table)), map_(slope_map(grains.departure)) {
    const double finest =
        grains.spread * grains.green_spread / std::hypot(grains.spread, grains.green_spread);
    const double step = kSpacing * finest;
    const int side = grains.green_spread > 0 ? int(std::ceil(kReach * grains.green_spread / step)) : 0;
    double total = 0;
    for (int i = -side; i <= side; ++i) {
        const double eta = i * step;
        const double u = grains.green_spread > 0 ? eta / grains.green_spread : 0;
        const double weight = std::exp(-0.5 * u * u + (side > 0 ? bumps(grains.departure.more, u) : 0));
        green_factor_.push_back(std::pow(10.0, eta));
        slower_.push_back(side > 0 ? bumps(grains.departure.slower, u) / grains.spread : 0);
        weight_.push_back(weight);
        total += weight;
    }
    for (double& weight : weight_) weight /= total;
}

double GrainPopulation::share_below(double z) const {
    if (grains_.departure.slope != GrainDeparture{}.slope) z = map_(z);
    return normal_cdf(is_bent(grains_) ? bent(z, grains_) : z);
}

double GrainPopulation::developable(EaselLight light, double log_threshold) const {
    const auto z = [&](double exposure) { return (std::log10(exposure) - log_threshold) / grains_.spread; };
    if (light.blue <= 0 && light.green <= 0) return 0;
    if (light.green <= 0 && grains_.departure.slower == GrainDeparture{}.slower)
        return share_below(z(light.blue));
    double share = 0;
    if (table_) {
        const double per_log = std::numbers::log10e / grains_.spread, offset = log_threshold / grains_.spread;
        for (std::size_t i = 0; i < weight_.size(); ++i)
            share += weight_[i] * (*table_)(std::log(light.blue + light.green * green_factor_[i]) * per_log -
                                            offset - slower_[i]);
        return share;
    }
    for (std::size_t i = 0; i < weight_.size(); ++i)
        share += weight_[i] * share_below(z(light.blue + light.green * green_factor_[i]) - slower_[i]);
    return share;
}

FilteredGrains::FilteredGrains(const GrainPopulation& population, const Filter& filter)
    : population_(population) {
    z_.reserve(population.weight_.size());
    for (std::size_t i = 0; i < population.weight_.size(); ++i)
        z_.push_back(std::log10(filter.blue + filter.green * population.green_factor_[i]) /
                         population.grains_.spread -
                     population.slower_[i]);
}

double FilteredGrains::developable(double log_over_threshold) const {
    const double over = log_over_threshold / population_.grains_.spread;
    const ShareTable* const table = population_.table_.get();
    double share = 0;
    for (std::size_t i = 0; i < z_.size(); ++i)
        share +=
            population_.weight_[i] * (table ? (*table)(over + z_[i]) : population_.share_below(over + z_[i]));
    return share;
}

}  // namespace fogproof::emulsion
