// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What looks wrong with a scan. Each sentence says what was seen, what it would do to the print, and the
// option that settles it.
#pragma once

#include <optional>
#include <string>

#include "fogproof/base/quantity.hpp"

namespace fogproof {

/// Clear film found around the frame that is denser than base + fog usually is.
[[nodiscard]] std::optional<std::string> dense_base(NegativeDensity base_and_fog);

}  // namespace fogproof
