// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/read_ways.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "fogproof/pack/grades.hpp"
#include "pack/readings_zero.hpp"

namespace fogproof::choose {

ReadWays::ReadWays(const Pack& pack) : nominal_s_(pack.development.nominal_s) {
    const auto filter_of = [&](const Reading& reading) -> std::optional<double> {
        if (pack.contrast == Contrast::graded) return {};
        return reading.filter.value_or(kUnfilteredGrade);
    };
    std::set<Way> ways;
    for (const Reading& reading : pack.readings.rows()) {
        const double develop = reading.develop_s.value_or(nominal_s_);
        if (is_lit(reading) && develop > 0)
            ways.insert({filter_of(reading), reading.restrainer_ml_l.value_or(0), develop});
    }
    ways_.assign(ways.begin(), ways.end());
}

double ReadWays::doublings_from(double restrainer_ml_l, double develop_s) const {
    constexpr double kLittle_ml_l = 5, kMost = 2;
    if (ways_.empty()) return 0;
    double least = std::numeric_limits<double>::infinity();
    for (const Way& way : ways_)
        least = std::min(least, std::hypot(std::log2((restrainer_ml_l + kLittle_ml_l) /
                                                     (way.restrainer_ml_l + kLittle_ml_l)),
                                           std::log2(develop_s / way.develop_s)));
    return std::min(least, kMost);
}

std::vector<SearchBounds> ReadWays::within(const SearchBounds& bounds) const {
    std::vector<SearchBounds> read;
    for (const Way& way : ways_) {
        SearchBounds one = bounds;
        if (way.filter) one.softest = one.hardest = *way.filter;
        one.restrainers = {way.restrainer_ml_l};
        one.develop_s = {way.develop_s};
        const auto lies_among = [](const std::vector<double>& amounts, double amount) {
            const auto [least, most] = std::ranges::minmax(amounts);
            return amount >= least && amount <= most;
        };
        if (one.softest >= bounds.softest && one.hardest <= bounds.hardest &&
            lies_among(bounds.restrainers, way.restrainer_ml_l) &&
            lies_among(bounds.develop_s.empty() ? std::vector{nominal_s_} : bounds.develop_s, way.develop_s))
            read.push_back(one);
    }
    return read;
}

}  // namespace fogproof::choose
