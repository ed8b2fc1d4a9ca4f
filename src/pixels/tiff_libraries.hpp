// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The libraries that strips go through.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// "libtiff 4.5.0" as it is loaded now, "libdeflate 1.14" as it was built against, since that one does not
/// say.
[[nodiscard]] std::vector<std::string> strip_libraries();

}  // namespace fogproof::pixels
