// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/fresh_paper.hpp"

#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <utility>

namespace fogproof::pack {
namespace {

// Light of one colour is reached, for all the grains can tell, at this log10 ratio of the two.
constexpr double kPureLight = 6;
// log10 exposure; far finer than a printer or a densitometer can tell.
constexpr double kClose = 1e-9;

// Where a rising function crosses nil, or the end nearest to that.
template <class Function>
double root(const Function& miss, double low, double high) {
    const double at_low = miss(low), at_high = miss(high);
    if (at_low >= 0) return low;
    if (at_high <= 0) return high;
    std::uintmax_t rounds = 100;
    const auto close = [](double a, double b) { return b - a < kClose; };
    const auto [a, b] = boost::math::tools::toms748_solve(miss, low, high, at_low, at_high, close, rounds);
    return (a + b) / 2;
}

Filter colour(double balance) {
    const double green = std::pow(10.0, balance);
    return {1 / (1 + green), green / (1 + green)};
}

}  // namespace

FreshPaper::FreshPaper(const PaperModel& model) : FreshPaper(model, GrainPopulation(model.emulsion.grains)) {}

FreshPaper::FreshPaper(const PaperModel& model, GrainPopulation population)
    : FreshPaper(model, std::move(population),
                 reference_shares(model.sheet, {model.emulsion.grains.max_density})) {}

FreshPaper::FreshPaper(const PaperModel& model, GrainPopulation population, const ReferenceShares& at)
    : grains_(model.emulsion.grains),
      population_(std::move(population)),
      at_(at),
      speed_(grains_.log_threshold + grains_.spread * grain_quantile(at_.speed, grains_)) {}

double FreshPaper::range(double balance) const {
    const Filter light = colour(balance);
    return 100 * (exposure(light, at_.shoulder) - exposure(light, at_.toe));
}

double FreshPaper::hardest_range() const {
    if (!grains_.departure.is_nil()) return range(-kPureLight);
    return iso_range_of_spread(grains_, at_);
}

double FreshPaper::softest_range() const {
    // A normal population under green light is normal again, with both spreads added.
    if (grains_.skew != 0 || grains_.peak != 0 || !grains_.departure.is_nil()) return range(kPureLight);
    Grains both = grains_;
    both.spread = std::hypot(grains_.spread, grains_.green_spread);
    return iso_range_of_spread(both, at_);
}

double FreshPaper::balance_for(double iso_range) const {
    return root([&](double balance) { return range(balance) - iso_range; }, -kPureLight, kPureLight);
}

Filter FreshPaper::filter(double balance, double faster) const {
    const Filter light = colour(balance);
    const double scale = std::pow(10.0, exposure(light, at_.speed) - speed_ + faster);
    return {light.blue * scale, light.green * scale};
}

double FreshPaper::exposure(const Filter& light, double share) const {
    const double reach = 6 * std::hypot(grains_.spread, grains_.green_spread) + 1;
    const double centre = grains_.log_threshold;
    return root(
        [&](double log_h) {
            const double h = std::pow(10.0, log_h);
            return population_.developable({h * light.blue, h * light.green}, centre) - share;
        },
        centre - reach, centre + reach);
}

}  // namespace fogproof::pack
