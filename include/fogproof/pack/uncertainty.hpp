// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How roughly an answer is known because the pack is.
// Not modelled: numbers that are wrong together (all count as independent), answers that bend within one
// standard deviation.
#pragma once

#include <functional>
#include <vector>

#include "fogproof/pack/schema.hpp"

namespace fogproof {

/// Standard deviations either side that hold 95 % of a normal distribution.
inline constexpr double kWithin95Percent = 1.96;

/// One standard deviation of a number of a pack: the pack's own, else the judged doubt of a default that is
/// merely assumed, else 0.
[[nodiscard]] double deviation_of(const Pack&, const PackNumber&);

/// Some answers that depend on a pack; always equally many.
using PackAnswers = std::function<std::vector<double>(const Pack&)>;

/// Standard deviation of every answer: each number is moved by its own deviation either way, the half
/// differences are added in quadrature. Where a moved pack contradicts itself only the other side counts.
/// The speed point of a pack without an anchor is left alone, since nothing is known in seconds there.
[[nodiscard]] std::vector<double> deviations(const PackAnswers&, const Pack&);

}  // namespace fogproof
