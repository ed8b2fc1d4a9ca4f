// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Sheets and trays told in centimetres or inches where millimetres are wanted.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// "180x240 if these are cm, 457x610 if inches" for sides too short to be millimetres of any sheet or tray.
[[nodiscard]] std::optional<std::string> likely_millimetres(std::span<const double> sides);

}  // namespace fogproof::report
