// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/fewer.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <utility>

#include "fit/likeness.hpp"
#include "fit/treated_patch.hpp"

namespace fogproof::fit {
namespace {

// Multiples of the golden ratio spread evenly whatever the period of what is picked from (Weyl), so that no
// step of a wedge is passed over strip after strip.
bool picked(std::size_t at, double share) {
    double whole = 0;
    return std::modf(double(at + 1) * (std::numbers::phi - 1), &whole) < share;
}

// How many of each kind come to `count` together.
double of_each(std::vector<std::size_t> sizes, std::size_t count) {
    std::ranges::sort(sizes);
    double left = double(count);
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const double each = left / double(sizes.size() - i);
        if (double(sizes[i]) > each) return each;
        left -= double(sizes[i]);
    }
    return double(count);
}

}  // namespace

std::vector<std::size_t> fewer_rows_of(std::span<const Reading> readings, const Pack& nominal,
                                       std::size_t count) {
    std::vector<std::size_t> rows;
    if (readings.size() <= count) {
        rows.resize(readings.size());
        std::iota(rows.begin(), rows.end(), std::size_t(0));
        return rows;
    }
    std::map<std::pair<Treatment, bool>, std::vector<std::size_t>> kinds;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const TreatedPatch patch = treated(readings[i], nominal);
        kinds[{treatment_of(patch), patch.exposure_s > 0}].push_back(i);
    }
    std::vector<std::size_t> sizes;
    for (const auto& [kind, members] : kinds) sizes.push_back(members.size());
    const double each = of_each(sizes, count);
    // One count over all kinds: where each has few, some kinds are passed over, never all.
    std::size_t at = 0;
    for (const auto& [kind, members] : kinds)
        for (const std::size_t row : members)
            if (picked(at++, each / double(members.size()))) rows.push_back(row);
    std::ranges::sort(rows);
    return rows;
}

std::vector<Reading> fewer_of(std::span<const Reading> readings, const Pack& nominal, std::size_t count) {
    std::vector<Reading> fewer;
    for (const std::size_t row : fewer_rows_of(readings, nominal, count)) fewer.push_back(readings[row]);
    return fewer;
}

}  // namespace fogproof::fit
