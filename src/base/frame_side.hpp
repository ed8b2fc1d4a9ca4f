// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where in a frame something lies, as one says it.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// "at the top left", "on the right", "in the middle"; parts of the frame from its top left.
[[nodiscard]] std::string frame_side(double across, double down);

}  // namespace fogproof::base
