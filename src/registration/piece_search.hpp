// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where a piece of a print lies that shows too little for keypoints: its picture, made small and of even
// contrast, is slid over the scan. Only where another piece of the print tells its size and, nearly, its
// turn.
#pragma once

#include <cstddef>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/coarse_place.hpp"

namespace fogproof::registration {

/// The part of a frame of `width` by `height` pixels that the other half of a print shows, where one half
/// shows this: beside it where most is missing, and as large, since prints are cut in their middle and may
/// show less than the frame.
[[nodiscard]] FramePart piece_beside(const FramePart& shown, int width, int height);

/// Places, most alike first, at most so many; without matches. `negative`: what a print of the whole frame
/// might look like; `piece`: the part of it that is looked for; `beside`: where the frame of the other piece
/// lies.
[[nodiscard]] std::vector<CoarsePlace> piece_places(const GreyImage& negative, const FramePart& piece,
                                                    const GreyImage& scan, const FrameWarp& beside,
                                                    std::size_t most);

}  // namespace fogproof::registration
