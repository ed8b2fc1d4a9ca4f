// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/read_ways.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

namespace fogproof::choose {

ReadWays::ReadWays(const Pack& pack) {
    std::set<std::pair<double, double>> ways;
    for (const Reading& reading : pack.readings.rows()) {
        const double develop = reading.develop_s.value_or(pack.development.nominal_s);
        if (reading.exposure_s.value_or(1) > 0 && develop > 0)
            ways.emplace(reading.restrainer_ml_l.value_or(0), develop);
    }
    for (const auto& [restrainer, develop] : ways) ways_.push_back({restrainer, develop});
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

}  // namespace fogproof::choose
