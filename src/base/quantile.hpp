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

/// Standard deviation of normal noise over the median of its absolute values: 1 / 0.6745 (normal
/// distribution).
inline constexpr double kMadToSigma = 1.4826;

/// The value that stands at `place`, less than their number, when the values are sorted. Reorders them.
template <class Value>
[[nodiscard]] Value in_order(std::vector<Value>& values, std::size_t place) {
    const auto at = values.begin() + std::ptrdiff_t(place);
    std::ranges::nth_element(values, at);
    return *at;
}

/// The value below which a share of the others lies, 0 to 1; of one value at least. Reorders them.
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
