// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A rectangle in pixels of the upright scan.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::base {

struct Region {
    int left = 0, top = 0, width = 0, height = 0;
};

}  // namespace fogproof::base
