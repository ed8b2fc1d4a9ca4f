// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Several pictures of a film, scanned together, that were taken for one frame.
#pragma once

#include <array>
#include <optional>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "scan/film_background.hpp"

namespace fogproof::scan {

struct PicturesInRow {
    int count;
    Region first;  ///< the one at the left or on top, in pixels of the small scan
};

/// Looks for bars of clear film or holder right across a frame, with parts of one size between them: a
/// picture may have an empty strip of sky, but hardly one that halves it. `clear`: density of the film around
/// it.
[[nodiscard]] std::optional<PicturesInRow> pictures_in_row(const SmallScan&, const Region& frame,
                                                           double clear);

}  // namespace fogproof::scan
