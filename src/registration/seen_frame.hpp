// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan looked up at the places of a negative's pixels: what the scan shows there, and how it changes.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/frame_warp.hpp"
#include "registration/grey_image.hpp"

namespace fogproof::registration {

/// The pixels of a negative as places of its frame.
struct FrameGrid {
    int width, height;
    /// A point of it; pixel 0 runs from 0 to 1.
    [[nodiscard]] FramePlace place_of(double x, double y) const {
        const double half = half_diagonal(width, height);
        return {(x - width / 2.0) / half, (y - height / 2.0) / half};
    }
    /// The middle of a pixel.
    [[nodiscard]] FramePlace place(int x, int y) const { return place_of(x + 0.5, y + 0.5); }
};

struct SeenFrame {
    GreyImage value, along_x, along_y;  ///< of the scan, by its own pixels
    std::vector<char> inside;           ///< whether the place lies on the scan
};

/// Bicubic between the scan's pixels.
[[nodiscard]] SeenFrame seen_through(const FrameWarp&, const FrameGrid&, const GreyImage& scan);

}  // namespace fogproof::registration
