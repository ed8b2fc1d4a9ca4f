// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <span>

#include "fit/fitter.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Logarithm of the chance of some readings beside others that have set the paper, as roughly as they have.
/// Throws Error where no such paper exists.
[[nodiscard]] double log_chance_beside(const Pack& paper, const Fitted& others, const Prior&,
                                       const ErrorSizes&, std::span<const Reading> some);

}  // namespace fogproof::fit
