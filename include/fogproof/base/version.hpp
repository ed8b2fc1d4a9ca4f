// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>

namespace fogproof {
/// Semantic version of this library, as CMakeLists.txt states it.
[[nodiscard]] std::string version();
}  // namespace fogproof
