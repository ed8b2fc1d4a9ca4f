// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <optional>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// A time as people write it: "90", "90s", "1.5min", "1min30s", "1:30". Nothing when the text is none of
/// these; the seconds behind minutes stay below 60.
[[nodiscard]] std::optional<double> seconds_in(std::string_view text);

}  // namespace fogproof::base
