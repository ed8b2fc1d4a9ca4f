// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Bytes small enough to stand in a page.
#pragma once

#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Compressed in the format of RFC 1950 and written in base64 (RFC 4648).
[[nodiscard]] std::string deflated_base64(std::string_view bytes);

}  // namespace fogproof::report
