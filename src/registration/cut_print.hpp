// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Finds the frame of a negative on both halves of a print that was cut in two and laid on one scan. Each half
// is placed by itself, and the frame is cut where its two sides are best explained, one by each.
#pragma once

#include <array>
#include <string>

#include "fogproof/rooms.hpp"
#include "registration/placing.hpp"

namespace fogproof::registration {

/// The parts of a frame on either side of a straight cut.
struct CutParts {
    FramePart first, second;
};

/// The cut, along a side of the frame, at which the blocks of each side say most for its own place. Both
/// votes are of one grid, `width` by `height` pixels.
[[nodiscard]] CutParts cut_apart(const BlockVotes& first, const BlockVotes& second, int width, int height);

/// Throws Error(Fault::data), with `place` in front, where either half is not found, shows something else or
/// has other grain than the negative.
[[nodiscard]] std::array<PlacedFrame, 2> placed_halves(const ReflectionImage& print, const NegativeView&,
                                                       const std::string& place);

}  // namespace fogproof::registration
