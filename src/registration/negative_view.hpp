// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The negative as it is looked at: its frame, perhaps with a little of the film around it.
#pragma once

#include <functional>

#include "fogproof/rooms.hpp"
#include "registration/film_edges.hpp"
#include "registration/frame_warp.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::registration {

struct NegativeView {
    /// With so many pixels on its longer side, or as many as it has.
    std::function<SmallNegative(int long_side)> at;
    /// Where in this view a point of the scan lies, in pixels of the scan as it lies in its file.
    std::function<FramePlace(double x, double y)> place_of;
    FilmEdges edges{};               ///< of the frame in this view
    int scan_pixels = 0;             ///< of the scan along its longer side; 0 is unknown
    bool is_coarsely_coded = false;  ///< 8 bit: what is faint may be wiped out
};

}  // namespace fogproof::registration
