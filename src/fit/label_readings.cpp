// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/label_readings.hpp"

#include <algorithm>
#include <iterator>
#include <set>

#include "fit/fewer.hpp"
#include "fit/slips_of_pen.hpp"

namespace fogproof::fit {
namespace {

// Of many readings so many strips are in doubt, with no more than so many readings, beside so many others.
constexpr std::size_t kStrips = 16, kInDoubt = 300, kOthers = 300;

}  // namespace

std::vector<Reading> weighed_for_labels(const Pack& nominal, std::span<const Reading> readings,
                                        const ErrorSizes& errors, std::span<const double> densities) {
    if (readings.size() <= kMany) return {readings.begin(), readings.end()};
    const auto strips =
        most_suspicious(strips_in(readings), suspicions(errors, readings, densities), kStrips);
    const std::set<std::string> names(strips.begin(), strips.end());
    std::vector<Reading> in_doubt, others;
    for (const auto& reading : readings)
        (names.contains(reading.strip) ? in_doubt : others).push_back(reading);
    std::vector<Reading> some = fewer_of(in_doubt, nominal, kInDoubt);
    std::ranges::copy(fewer_of(others, nominal, kOthers), std::back_inserter(some));
    return some;
}

}  // namespace fogproof::fit
