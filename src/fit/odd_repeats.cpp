// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/odd_repeats.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "base/quantile.hpp"
#include "base/words.hpp"
#include "fit/likeness.hpp"
#include "fit/stated_densities.hpp"
#include "fit/treated_patch.hpp"

namespace fogproof::fit {
namespace {

// D; repeats of one patch, sheets included, agree to the first, and one that is off by the second was
// mistyped or read elsewhere. Judgement.
constexpr double kAgree = 0.04, kOdd = 0.08;
constexpr std::size_t kLeastRepeats = 3;

}  // namespace

std::vector<std::string> odd_repeats(std::span<const Reading> readings, const Pack& nominal) {
    std::map<std::tuple<Treatment, double, double>, std::vector<std::size_t>> patches;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const TreatedPatch patch = treated(readings[i], nominal);
        if (!is_stated_density(readings[i]) && !exposure_guessed(readings[i]))
            patches[{treatment_of(patch), patch.exposure_s, patch.wedge_density}].push_back(i);
    }
    std::vector<std::string> warnings;
    for (const auto& [patch, rows] : patches) {
        if (rows.size() < kLeastRepeats) continue;
        std::vector<double> densities;
        for (const std::size_t i : rows) densities.push_back(readings[i].density);
        const double middle = median(densities);
        const auto off = [&](std::size_t i) { return std::abs(readings[i].density - middle); };
        const std::size_t odd = std::ranges::max(rows, {}, off);
        const bool others_agree =
            std::ranges::all_of(rows, [&](std::size_t i) { return i == odd || off(i) < kAgree; });
        if (!others_agree || off(odd) < kOdd) continue;
        warnings.push_back("strip \"" + readings[odd].strip + "\", density " +
                           fixed(readings[odd].density, 2) + ": the other " +
                           std::to_string(rows.size() - 1) + " readings of such a patch are about " +
                           fixed(middle, 2) + "; is it mistyped? Read it again");
    }
    return warnings;
}

}  // namespace fogproof::fit
