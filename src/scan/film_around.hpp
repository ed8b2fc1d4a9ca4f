// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What surrounds the picture on a scan, and whether it makes a negative or an inverted one.
#pragma once

#include "fogproof/rooms.hpp"
#include "negative/suspicion.hpp"
#include "scan/frame_search.hpp"

namespace fogproof::scan {

/// What the rim of the scan tells; `found` is what the search for the frame found on the same scan.
[[nodiscard]] FilmAround film_around(const SmallScan&, const FilmSurvey& found);

}  // namespace fogproof::scan
