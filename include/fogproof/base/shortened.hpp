// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words that must have room in a place.
#pragma once

#include <cstddef>
#include <string_view>

namespace fogproof {

/// As much of the beginning as has room in so many bytes, no character cut in two.
[[nodiscard]] std::string_view shortened(std::string_view utf8, std::size_t bytes);

}  // namespace fogproof
