// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Values by their place in the rising order.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// Standard deviation of normal noise over the median of its sizes: 1 / 0.6745 (normal distribution).
inline constexpr double kMadToSigma = 1.4826;

/// The value at a place of the rising order. The values, which must reach to that place, change theirs.
template <class Value>
[[nodiscard]] Value in_order(std::vector<Value>& values, std::size_t place) {
    const auto at = values.begin() + std::ptrdiff_t(place);
    std::ranges::nth_element(values, at);
    return *at;
}

/// The value that a share of the others lies below, 0 to 1, rounded down to one of them; of one value at
/// least.
template <class Value>
[[nodiscard]] Value quantile(std::vector<Value>& values, double share) {
    return in_order(values, std::size_t(share * double(values.size() - 1)));
}

/// The middle value, the upper one of two; of one value at least.
template <class Value>
[[nodiscard]] Value median(std::vector<Value> values) {
    return in_order(values, values.size() / 2);
}

}  // namespace fogproof::base
