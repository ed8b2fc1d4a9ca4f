// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The libraries that the pictures of this program go through.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::picture {

/// "libvips 8.14.1", "Little CMS 2.14": as they are loaded now, which need not be as they were built against.
[[nodiscard]] std::vector<std::string> imaging_libraries();

/// Makes them ready ahead of the first picture, which would do it otherwise: before this process is forked,
/// so that no worker has to (21 ms each). Starts no thread.
void imaging_ready();

}  // namespace fogproof::picture
