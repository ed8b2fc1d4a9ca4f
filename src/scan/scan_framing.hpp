// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The frame of a scan: given, or found together with the clear film around it.
#pragma once

#include <optional>

#include "fogproof/rooms.hpp"
#include "negative/suspicion.hpp"
#include "scan/scan.hpp"
#include "scan/scan_channel.hpp"
#include "scan/scan_file.hpp"

namespace fogproof::scan {

inline constexpr int kSmallestFrame = 16;  // pixels; below that there is no picture to judge

struct Framing {
    Region frame;                       ///< what counts
    Region printed;                     ///< the frame, with the clear edge if that is asked for
    std::optional<double> clear_light;  ///< of clear film, where the search came upon it
    Histogram counts{};                 ///< of the frame, where the search has counted it on its way
    FilmAround around{};                ///< where the search has looked at it
    bool frame_is_found = false;
};

/// Searches only where the options leave something open. Throws Error when a clear edge is asked for that is
/// not there.
[[nodiscard]] Framing framing(const ScanFile&, const ScanChannel&, const ScanOptions&, Notes&);

}  // namespace fogproof::scan
