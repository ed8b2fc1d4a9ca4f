// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A strip whose label the other strips do not believe, and the label they would.
#pragma once

#include <span>
#include <vector>

#include "fit/fitter.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Errors under which labels are compared: those of the fit within some, since the strip in doubt has
/// made them larger, or has bent the pack so that they are too small. Judgement.
[[nodiscard]] ErrorSizes compared(const ErrorSizes&);

/// Sought where a fit of all misses a strip by more than errors and other sheets explain. Each strip is left
/// out once; of those without which the rest agrees best, slips of the pen are tried and the likeliest fitted
/// in full.
[[nodiscard]] std::vector<Contradiction> contradictions_in(const Prior&, std::span<const Reading>,
                                                           const ErrorSizes&, const Fitted& all);

}  // namespace fogproof::fit
