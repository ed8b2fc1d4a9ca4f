// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where a print of one frame was cut in two: each side of the cut is what one of two places on the scan
// shows.
#pragma once

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

/// The parts of a frame on either side of a straight cut.
struct CutParts {
    FramePart first, second;
};

/// The cut, along a side of the frame, at which the blocks of each side say most for its own place. Both
/// votes are of one grid, `width` by `height` pixels.
[[nodiscard]] CutParts cut_by_detail(const BlockVotes& first, const BlockVotes& second, int width,
                                     int height);

/// The cut that leaves least unexplained, each side through a tone curve of its own, since the halves are
/// treated differently. For even ground, which looks the same wherever it is slid to, so that its detail
/// tells neither place; where a piece shows its border, that has tones of its own, too. `negative`: its
/// densities; what the scan shows at either place is on the same grid.
[[nodiscard]] CutParts cut_by_tones(const GreyImage& negative, const SeenFrame& first,
                                    const SeenFrame& second);

/// What one tone curve leaves unexplained of a part of the frame as the scan shows it at a place: natural
/// logarithm of rms lightness (0 to 1), mean over blocks; noise and blur alone leave -4.6. `negative`: its
/// densities on the grid of the place.
[[nodiscard]] double left_by_tones(const GreyImage& negative, const SeenFrame&, const FramePart&);

}  // namespace fogproof::registration
