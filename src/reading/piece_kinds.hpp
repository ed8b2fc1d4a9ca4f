// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the pieces of a scan look like before anybody says what they are: even patches, strips in steps, or
// pictures.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/piece_labels.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

struct PiecesSeen {
    ScanReading scan;                 ///< pieces and what was read off them on the scan's full scale
    std::vector<PieceLabels> labels;  ///< a line for each, with number, kind, place and steps
};
/// Nothing is refused but a scan without pieces, Error(Fault::data).
[[nodiscard]] PiecesSeen pieces_seen(const ReflectionImage&, const StripRequest&);

}  // namespace fogproof::reading
