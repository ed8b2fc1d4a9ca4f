// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A mask made small, for a worksheet to show where work is done.
#pragma once

#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"
#include "proof/small_picture.hpp"

namespace fogproof::picture {

/// The darker, the more of the mask; on light grey, so that its paper is seen where nothing is done.
[[nodiscard]] SmallPicture mask_jpeg(const LevelGrid&, int long_side);

}  // namespace fogproof::picture
