// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which part of a frame a print shows, even ground included. Blocks with a texture tell by themselves where a
// print shows the negative; even ground beside them belongs to it as far as the print is as light there as
// the negative says, up to the edge of the frame, of a crop, of the paper or of a cut.
#pragma once

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

/// `part`, as its texture tells it, grown by whole lines over the ground that goes on in the print as in the
/// negative; nothing beyond `most` is taken. `negative`: its densities, as blurred as the scan, on the grid
/// of what is seen.
[[nodiscard]] FramePart with_even_ground(const GreyImage& negative, const SeenFrame&, FramePart part,
                                         const FramePart& most);

}  // namespace fogproof::registration
