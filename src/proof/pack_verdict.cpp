// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/pack_verdict.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::proof {
namespace {

Answer at_least(const Interval& found, double wanted) {
    if (found.low >= wanted) return Answer::yes;
    if (found.high < wanted) return Answer::no;
    return found.value >= wanted ? Answer::likely : Answer::unlikely;
}

Answer at_most(const Interval& found, double wanted) {
    return at_least({-found.value, -found.high, -found.low}, -wanted);
}

// Of black over white, each known by itself.
Interval range_between(const Interval& white, const Interval& black) {
    const double range = black.value - white.value;
    return {range, range - std::hypot(black.value - black.low, white.high - white.value),
            range + std::hypot(black.high - black.value, white.value - white.low)};
}

const BleachedWhite* cleared_white(const PackSummary& summary) {
    const auto found = std::ranges::find(summary.bleached, 100.0, &BleachedWhite::clearing_percent);
    return found == summary.bleached.end() ? nullptr : &*found;
}

}  // namespace

PackVerdict pack_verdict(const PackSummary& summary) {
    PackVerdict verdict{summary.blank.density, summary.black, false, Answer::no, Answer::no};
    if (const BleachedWhite* cleared = cleared_white(summary); cleared && summary.black_cleared)
        verdict.white = cleared->white.density, verdict.black = *summary.black_cleared,
        verdict.is_cleared = true;
    verdict.full_scale = std::min(at_most(verdict.white, kFullScaleWhite),
                                  at_least(range_between(verdict.white, verdict.black), kFullScaleRange));
    verdict.deep_blacks = at_least(verdict.black, kDeepBlack);
    return verdict;
}

}  // namespace fogproof::proof
