// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <cstddef>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Lines of a readings file that are comments by their first character, '#', but have the cells of a reading:
/// perhaps a strip whose name begins so.
[[nodiscard]] std::size_t commented_rows(std::string_view text);

}  // namespace fogproof::pack
