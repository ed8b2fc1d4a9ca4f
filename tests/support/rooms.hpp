// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Tests may look into every room.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::tests {
using namespace cli;
}  // namespace fogproof::tests
