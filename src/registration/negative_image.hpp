// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A small negative as a picture of its densities.
#pragma once

#include "fogproof/rooms.hpp"
#include "registration/grey_image.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::registration {

[[nodiscard]] GreyImage densities(const SmallNegative&);

}  // namespace fogproof::registration
