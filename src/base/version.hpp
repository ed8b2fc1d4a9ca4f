// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::base {
/// Semantic version of this library, as CMakeLists.txt states it.
[[nodiscard]] std::string version();
}  // namespace fogproof::base
