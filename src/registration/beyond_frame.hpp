// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whether a print goes on beyond a negative's frame. No enlarger shows what the negative does not have: such
// a print is of another negative of the scene, or the frame is larger than told.
#pragma once

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/frame_warp.hpp"
#include "registration/grey_image.hpp"

namespace fogproof::registration {

/// Largest correlation of what lies just outside of a side with what lies just inside, along that side, or
/// step by step across it, against that of such steps inside; 0 where nothing can be seen outside, or where
/// the print does not show that side: what lies just inside must then look as `expected`, the print that the
/// negative would give, of so many pixels' blur. A border, a lid or another print goes on with nothing.
/// `shown`: the part of the frame that the print shows.
[[nodiscard]] double continued_beyond(const FrameWarp&, const GreyImage& expected, double blur,
                                      const FramePart& shown, const GreyImage& scan);

}  // namespace fogproof::registration
