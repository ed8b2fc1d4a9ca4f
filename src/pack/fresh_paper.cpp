// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/fresh_paper.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <utility>

namespace fogproof::pack {
namespace {

// Light of one colour is reached, for all the grains can tell, at this log10 ratio of the two.
constexpr double kPureLight = 6;
// log10 exposure; far finer than a printer or a densitometer can tell. Near a known place it is one of many
// packs that a pack may be which is asked, and their spread is wanted.
constexpr double kClose = 1e-9, kCloseNear = 1e-6;

template <class Function>
double root_between(const Function& miss, double low, double high, double at_low, double at_high,
                    double apart) {
    if (at_low >= 0) return low;
    if (at_high <= 0) return high;
    std::uintmax_t rounds = 100;
    const auto close = [apart](double a, double b) { return b - a < apart; };
    const auto [a, b] = boost::math::tools::toms748_solve(miss, low, high, at_low, at_high, close, rounds);
    return (a + b) / 2;
}

// Where a rising function crosses nil, or the end nearest to that. The search begins at a place that may be
// close and widens from there.
template <class Function>
double root(const Function& miss, double about, double low, double high, double apart) {
    constexpr double kWidth = 0.01, kGrowth = 4;
    double inner = std::clamp(about, low, high), at_inner = miss(inner);
    if (std::abs(at_inner) < apart / 100) return inner;
    const double way = at_inner < 0 ? 1 : -1, end = way > 0 ? high : low;
    for (double width = kWidth; inner != end; width *= kGrowth) {
        const double outer = std::clamp(inner + way * width, low, high), at_outer = miss(outer);
        if (way * at_outer >= 0)
            return way > 0 ? root_between(miss, inner, outer, at_inner, at_outer, apart)
                           : root_between(miss, outer, inner, at_outer, at_inner, apart);
        inner = outer, at_inner = at_outer;
    }
    return end;
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
    return balance_near(iso_range, 0, kClose);
}

double FreshPaper::balance_for(double iso_range, double about) const {
    return balance_near(iso_range, about, kCloseNear);
}

double FreshPaper::balance_near(double iso_range, double about, double apart) const {
    // Light of almost the same balance reaches the ends of the range at almost the same exposures.
    const FilteredGrains close_by(population_, colour(about));
    double shoulder = exposure_near(close_by, at_.shoulder, grains_.log_threshold, apart),
           toe = exposure_near(close_by, at_.toe, shoulder - iso_range / 100, apart);
    const auto excess = [&](double balance) {
        const FilteredGrains light(population_, colour(balance));
        shoulder = exposure_near(light, at_.shoulder, shoulder, apart);
        toe = exposure_near(light, at_.toe, toe, apart);
        return 100 * (shoulder - toe) - iso_range;
    };
    return root(excess, about, -kPureLight, kPureLight, apart);
}

Filter FreshPaper::filter(double balance, double faster) const {
    const Filter light = colour(balance);
    const double scale = std::pow(10.0, exposure(light, at_.speed) - speed_ + faster);
    return {light.blue * scale, light.green * scale};
}

double FreshPaper::reach() const {
    return 6 * std::hypot(grains_.spread, grains_.green_spread) + 1;
}

double FreshPaper::exposure(const Filter& light, double share) const {
    // Half of the grains are developable somewhere near this exposure, whatever the colour of the light.
    const double about = grains_.log_threshold - std::log10(light.blue + light.green);
    return exposure_near(FilteredGrains(population_, light), share, about, kClose);
}

double FreshPaper::exposure(const Filter& light, double share, double about) const {
    return exposure_near(FilteredGrains(population_, light), share, about, kCloseNear);
}

double FreshPaper::exposure_near(const FilteredGrains& grains, double share, double about,
                                 double apart) const {
    const double centre = grains_.log_threshold;
    return root([&](double log_h) { return grains.developable(log_h - centre) - share; }, about,
                centre - reach(), centre + reach(), apart);
}

}  // namespace fogproof::pack
