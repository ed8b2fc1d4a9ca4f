// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/mistaken_unit.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fogproof::report {
namespace {

// The largest trade size is 51 x 61 cm, the smallest 6 x 9 cm, so that 61 mm is no sheet's longer side
// (common practice, no source).
constexpr double kLongestMistaken = 61, kMmInCm = 10, kMmInInch = 25.4;

std::string times(std::span<const double> sides, double unit) {
    std::string words;
    for (const double side : sides) words.append(words.empty() ? "" : "x").append(decimal(side * unit, 0));
    return words;
}

}  // namespace

std::optional<std::string> likely_millimetres(std::span<const double> sides) {
    if (sides.empty() || *std::ranges::max_element(sides) > kLongestMistaken) return std::nullopt;
    return times(sides, kMmInCm) + " if these are cm, " + times(sides, kMmInInch) + " if inches";
}

}  // namespace fogproof::report
