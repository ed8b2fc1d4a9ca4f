// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A strip whose label the other strips do not believe, and the label they would.
#pragma once

#include <span>
#include <vector>

#include "calibrate/fitter.hpp"
#include "fogproof/calibrate/fit.hpp"

namespace fogproof {

/// Strips that a fit of all misses by more than laws usually do. Each is left out once, the labels tried on
/// it are those of the other strips, swaps with them, and factors of two; what fits best is fitted in full.
[[nodiscard]] std::vector<Contradiction> contradictions_in(const Prior&, std::span<const Reading>,
                                                           const Errors&, const Fitted& all);

}  // namespace fogproof
