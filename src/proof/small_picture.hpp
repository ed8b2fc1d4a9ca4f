// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A small picture as bytes, to stand on a sheet or a page.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::proof {

struct SmallPicture {
    std::string jpeg;
    int width = 0, height = 0;
};

}  // namespace fogproof::proof
