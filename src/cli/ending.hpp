// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a piece of work ends: quietly, or with one line and an exit code.
#pragma once

#include <functional>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// The work's own exit code; where it throws, what went wrong is said and the fault's code returned.
[[nodiscard]] int ending_of(const std::function<int()>& work) noexcept;

}  // namespace fogproof::cli
