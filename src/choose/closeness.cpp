// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/closeness.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>

#include "choose/starting_exposure.hpp"
#include "print/clearing.hpp"

namespace fogproof::choose {
namespace {

constexpr double kNode = 0.02;                     // log10 exposure between nodes of a curve of L*
constexpr std::size_t kStride = 3;                 // nodes between exposures tried: a fifth of a stop
constexpr double kLighter = 1.02, kDarker = 1.38;  // log10 under and over the fresh print's exposure
constexpr auto kExposures = std::size_t((kLighter + kDarker) / (kNode * kStride) + 0.5) + 1;

long hundredths(double grade) {
    return std::lround(100 * grade);
}

// The deepest bleach that a search looks for lies well within twice the unit of a longest, unrestrained
// development.
double most_dose(const Printing& printing) {
    return 2 * depth_unit(printing.paper(), nominal_step(printing.pack().development));
}

}  // namespace

double depth_unit(const PaperModel& paper, const DevelopStep& step) {
    constexpr PrintDensity kVeil{0.15};
    if (const auto clears = clearing_dose(paper, step)) return *clears;
    return clearing_dose(paper, step, kVeil).value_or(0);
}

Closeness::Closeness(const Printing& printing, const Wanted& wanted)
    : printing_(printing),
      table_(std::make_shared<const ShareTable>(printing.paper().emulsion.grains)),
      population_(printing.paper().emulsion.grains, table_),
      filters_(printing.pack(), printing.paper(), table_),
      lightness_(printing.paper(), printing.paper().emulsion.grains.max_density * 1.05, most_dose(printing),
                 printing.toner()),
      wanted_(wanted.lightness),
      white_(wanted.white),
      nominal_threshold_(
          Developer(printing.paper().emulsion, nominal_step(printing.pack().development)).log_threshold()) {
    for (const Tone& tone : wanted.tones) {
        const PlaceWork work = wanted.work_at(tone);
        log_light_.push_back(printing.light().log_light(tone) + work.shift());
        share_.push_back(tone.share);
        line_.push_back(line_of(work, lines_));
    }
    for (const PlaceWork& line : lines_)
        bleached_.push_back(line.bleach.value > 0 ? bleach_dose(printing.paper().bleach,
                                                                printing.pack().darkroom.bath, line.bleach)
                                                  : 0);
    place_tones();
}

// Tones between the same two nodes are taken together: within 0.02 of log exposure a print's distance from
// the target is a straight line, whose mean counts; its spread is the same for all recipes but for a hair.
void Closeness::place_tones() {
    const auto [dimmest, brightest] = std::ranges::minmax(log_light_);
    dimmest_ = dimmest;
    span_ = brightest - dimmest;
    std::map<std::pair<std::size_t, std::size_t>, PlacedTone> cells;
    for (std::size_t i = 0; i < wanted_.size(); ++i) {
        const double place = (log_light_[i] - dimmest) / kNode;
        const auto node = std::size_t(place);
        PlacedTone& cell =
            cells.try_emplace({line_[i], node}, PlacedTone{node, line_[i], 0, 0, 0}).first->second;
        cell.beyond += share_[i] * (place - double(node));
        cell.wanted += share_[i] * wanted_[i];
        cell.share += share_[i];
    }
    for (auto& [place, cell] : cells) {
        if (cell.share <= 0) continue;
        cell.beyond /= cell.share;
        cell.wanted /= cell.share;
        placed_.push_back(cell);
    }
}

const Closeness::WayOfDeveloping& Closeness::way(const DevelopStep& step) {
    const std::pair key{step.restrainer_ml_l, step.time_s};
    const auto found = ways_.find(key);
    if (found != ways_.end()) return found->second;
    return ways_
        .try_emplace(key, WayOfDeveloping{Developer(printing_.paper().emulsion, step, population_),
                                          depth_unit(printing_.paper(), step),
                                          most_made_up_for(printing_.paper(), step)})
        .first->second;
}

const ShareCurve& Closeness::share_curve(double grade, std::size_t line) {
    const std::pair key{hundredths(grade), lines_[line].burns.empty() ? 0 : line};
    const auto found = curves_.find(key);
    if (found != curves_.end()) return found->second;
    const Filter filter =
        lines_[line].light_through(filters_.at(grade), printing_.pack().darkroom.enlarger.reciprocity,
                                   [this](double other) { return filters_.nearest(other); });
    return curves_.try_emplace(key, population_, filter).first->second;
}

double Closeness::silver(const Developer& developer, double exposed, std::size_t line) const {
    const double fog = lines_[line].fog;
    return developer.with_share(fog > 0 ? with_more_fog(exposed, developer.more_fog(fog)) : exposed)
        .density.value;
}

const std::vector<double>& Closeness::row(double dose) {
    const auto found = rows_.find(dose);
    return found != rows_.end() ? found->second : rows_.emplace(dose, lightness_.at_dose(dose)).first->second;
}

double Closeness::made_up_for(const DevelopStep& step, double dose) {
    return std::min(dose, way(step).most_made_up_for.value_or(dose));
}

double Closeness::unit(const DevelopStep& step) {
    return way(step).unit;
}

const Closeness::Closest& Closeness::closest(double grade, const DevelopStep& step, double dose) {
    const std::tuple key{hundredths(grade), step.restrainer_ml_l, step.time_s, dose};
    if (const auto found = closest_.find(key); found != closest_.end()) return found->second;

    const Developer& developer = way(step).developer;
    const double slower = developer.log_threshold() - nominal_threshold_;
    const double first = printing_.target().exposure.value + slower - kLighter;
    const std::size_t nodes = std::size_t(span_ / kNode) + kExposures * kStride + 3;
    std::vector<double> lightness;
    for (std::size_t line = 0; line < lines_.size(); ++line) {
        const ShareCurve& share = share_curve(grade, line);
        const std::vector<double>& thinned = row(dose + bleached_[line]);
        for (std::size_t i = 0; i < nodes; ++i) {
            const double over = first + dimmest_ + double(i) * kNode - developer.log_threshold();
            lightness.push_back(lightness_.lightness(thinned, silver(developer, share(over), line)));
        }
    }
    const Adaptation seen = adaptation(step, dose);
    std::vector<double> square(kExposures), absolute(kExposures);
    for (std::size_t e = 0; e < kExposures; ++e) {
        const double* shifted = lightness.data() + e * kStride;
        for (const PlacedTone& tone : placed_) {
            const double* at = shifted + tone.line * nodes + tone.node;
            const double l = at[0] + tone.beyond * (at[1] - at[0]);
            const double miss = seen.miss(l, tone.wanted);
            square[e] += tone.share * miss * miss;
            absolute[e] += tone.share * (l - tone.wanted) * (l - tone.wanted);
        }
    }
    tried_ += kExposures;
    const auto least = std::size_t(std::ranges::min_element(square) - square.begin());
    double place = double(least), value = absolute[least];
    if (least > 0 && least + 1 < kExposures) {
        const double slope = (square[least + 1] - square[least - 1]) / 2;
        const double bend = square[least + 1] - 2 * square[least] + square[least - 1];
        if (bend > 0) {
            const double beyond = -slope / bend;
            place += beyond;
            value += beyond * (absolute[least + 1] - absolute[least - 1]) / 2 +
                     beyond * beyond * (absolute[least + 1] - 2 * absolute[least] + absolute[least - 1]) / 2;
        }
    }
    return closest_
        .try_emplace(key, Closest{first + place * kNode * kStride, std::sqrt(std::max(value, 0.0))})
        .first->second;
}

Adaptation Closeness::adaptation(const DevelopStep& step, double dose) {
    const double silver = way(step).developer.with_share(0).density.value;
    return Adaptation::between(lightness_.lightness(row(dose), silver), white_);
}

Closeness::Misses Closeness::misses(double grade, const DevelopStep& step, double dose, double log_h) {
    ++tried_;
    const Developer& developer = way(step).developer;
    std::vector<const ShareCurve*> share;
    std::vector<const std::vector<double>*> thinned;
    for (std::size_t line = 0; line < lines_.size(); ++line) {
        share.push_back(&share_curve(grade, line));
        thinned.push_back(&row(dose + bleached_[line]));
    }
    const Adaptation seen = adaptation(step, dose);
    const double over = log_h - developer.log_threshold();
    Misses sum{0, 0};
    for (std::size_t i = 0; i < wanted_.size(); ++i) {
        const std::size_t line = line_[i];
        const double exposed = (*share[line])(over + log_light_[i]);
        const double l = lightness_.lightness(*thinned[line], silver(developer, exposed, line)),
                     miss = seen.miss(l, wanted_[i]);
        sum.seen += share_[i] * miss * miss;
        sum.absolute += share_[i] * (l - wanted_[i]) * (l - wanted_[i]);
    }
    return sum;
}

double Closeness::rms(double grade, const DevelopStep& step, double dose, double log_h) {
    return std::sqrt(misses(grade, step, dose, log_h).absolute);
}

Closeness::Closest Closeness::settled(double grade, const DevelopStep& step, double dose, double guess) {
    constexpr double kNear = 2 * kStride * kNode;
    const double log_h = boost::math::tools::brent_find_minima(
                             [&](double at) { return std::sqrt(misses(grade, step, dose, at).seen); },
                             guess - kNear, guess + kNear, 14)
                             .first;
    return {log_h, rms(grade, step, dose, log_h)};
}

}  // namespace fogproof::choose
