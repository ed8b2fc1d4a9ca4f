// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which libraries the pictures of this program go through.
#pragma once

#include <string>
#include <vector>

namespace fogproof {

/// "libvips 8.14.1", "Little CMS 2.14": as they are loaded now, which need not be as they were built against.
[[nodiscard]] std::vector<std::string> imaging_libraries();

}  // namespace fogproof
