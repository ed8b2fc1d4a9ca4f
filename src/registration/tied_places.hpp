// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Places that somebody saw: points of the negative's picture and the same points on the scan of its print,
// for pictures in which the program finds no place by itself.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/coarse_place.hpp"
#include "registration/frame_cut.hpp"

namespace fogproof::registration {

struct TiePoint {
    FramePlace frame;  ///< of the upright negative
    ScanPlace scan;
};

/// Fewest that tell a place, and whether the print is a mirror image.
inline constexpr std::size_t kFewestTiePoints = 3;

struct TiedPlace {
    CoarsePlace place;  ///< of the negative, or of its mirror image if the print is one
    bool is_mirrored;
};

/// The place that the points tell; of a print that was cut one or two, as the points are of one half or of
/// both. Throws Error(Fault::usage) for points that are too few, lie too close together or contradict each
/// other.
[[nodiscard]] std::vector<TiedPlace> tied_places(std::span<const TiePoint>, bool is_cut);

/// Midway between the points of either half.
[[nodiscard]] CutParts cut_between(const CoarsePlace& first, const CoarsePlace& second, const FrameGrid&);

}  // namespace fogproof::registration
