// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Bytes small enough to stand in a page.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Bytes as letters of a page: 13 bits are two letters out of 91, of which none begins a tag. Base64 takes a
/// twelfth more.
struct PackedData {
    std::string letters;
    std::size_t bytes = 0;  ///< that the letters stand for
};
[[nodiscard]] PackedData in_letters(std::string_view bytes);
/// Compressed in the format of RFC 1950 first.
[[nodiscard]] PackedData deflated_letters(std::string_view bytes);

}  // namespace fogproof::report
