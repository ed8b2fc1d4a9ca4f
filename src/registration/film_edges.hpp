// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where the picture on a film ends and its clear edge begins, to a part of a pixel. Frames are found on a
// small copy of a scan and drawn in a little, so that no clear film is printed; corners are wanted as they
// are.
#pragma once

#include "fogproof/rooms.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::registration {

/// Of a view of the negative, as parts of its width and height.
struct FilmEdges {
    double left = 0, top = 0, right = 1, bottom = 1;
};

/// Of a view that shows a little of the clear edge on every side. Where the picture is too thin to be told
/// from clear film the edge is taken as `usual` pixels in.
[[nodiscard]] FilmEdges film_edges(const SmallNegative&, double usual);

}  // namespace fogproof::registration
