// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How many processors one process may keep busy, so that processes side by side do not each take them all.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// At least 1: as many as this process may run on, or its share of them.
[[nodiscard]] unsigned processors();
/// From now on this process leaves the processors to `processes` that share them. To be called while it has
/// one thread.
void share_processors(unsigned processes);

}  // namespace fogproof::system
