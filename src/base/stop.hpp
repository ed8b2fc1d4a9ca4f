// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// log10 exposure of one stop.
inline constexpr double kLogPerStop = 0.30102999566398120;  // log10 2

}  // namespace fogproof::base
