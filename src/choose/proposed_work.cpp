// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/proposed_work.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "choose/choice.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

constexpr double kLess = 0.5, kMore = 1.5;  // of the proposed stops

// By draw, with so much of the work.
std::vector<double> first_sheets(const Printing& printing, const Wanted& wanted, const StartingPoint& point,
                                 double share) {
    PrintSteps steps = point.proof.steps;
    for (LocalStep& work : steps.local) work.stops = share * work.stops.value_or(0);
    Prospects prospects(printing, printing.in_places(wanted, steps), kToldDraws, kToldSet);
    return prospects.first_sheets(as_told(point.found, printing));
}

Interval interval_of(const std::vector<double>& values) {
    double mean = 0, square = 0;
    for (const double value : values) mean += value / double(values.size());
    for (const double value : values) square += std::pow(value - mean, 2) / double(values.size() - 1);
    const double half = kWithin95Percent * std::sqrt(square);
    return {mean, mean - half, mean + half};
}

}  // namespace

ProposedWork weighed(const Printing& printing, const Wanted& wanted, const StartingPoint& without,
                     const StartingPoint& with, ProposedPlace place) {
    Prospects plain(printing, printing.in_places(wanted, {}), kToldDraws, kToldSet);
    const std::vector<double> before = plain.first_sheets(as_told(without.found, printing));
    const auto less = first_sheets(printing, wanted, with, kLess),
               none = first_sheets(printing, wanted, with, 0), told = first_sheets(printing, wanted, with, 1),
               more = first_sheets(printing, wanted, with, kMore);
    std::vector<double> gains, shares;
    for (std::size_t draw = 0; draw < before.size(); ++draw) {
        gains.push_back(none[draw] - told[draw]);
        // The parabola through three amounts, in squares, which are smooth.
        const double a = less[draw] * less[draw], b = told[draw] * told[draw], c = more[draw] * more[draw];
        const double bend = a - 2 * b + c;
        const double best = bend > 0 ? 1 + kLess * (a - c) / (2 * bend) : (a < c ? kLess : kMore);
        shares.push_back(std::clamp(best, 0.0, 2.0));
    }
    const Interval share = interval_of(shares);
    const auto mean = [](const std::vector<double>& values) {
        return std::accumulate(values.begin(), values.end(), 0.0) / double(values.size());
    };
    ProposedWork work{std::move(place), {}, interval_of(gains), mean(before)};
    const double gain = work.without - mean(told), reach = work.gain.high - work.gain.value;
    work.gain = {gain, gain - reach, gain + reach};
    const double half = share.high - share.value;
    work.stops = {work.place.stops, work.place.stops * std::max(0.0, 1 - half),
                  work.place.stops * (1 + half)};
    return work;
}

}  // namespace fogproof::choose
