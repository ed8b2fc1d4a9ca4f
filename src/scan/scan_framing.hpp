// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The frame of a scan: given, or found together with the clear film around it.
#pragma once

#include <array>
#include <optional>

#include "fogproof/rooms.hpp"
#include "negative/suspicion.hpp"
#include "scan/scan.hpp"
#include "scan/scan_pixels.hpp"

namespace fogproof::scan {

inline constexpr int kSmallestFrame = 16;  // pixels; below that there is no picture to judge

struct Framing {
    Region frame;                       ///< what counts
    Region printed;                     ///< the frame, with the clear edge if that is asked for
    std::optional<double> clear_light;  ///< of clear film, where the search came upon it
    Histogram scan_counts{};            ///< of the whole scan, where the search has counted it on its way
    FilmAround around{};                ///< where the search has looked at it
    bool frame_is_found = false;
    std::array<bool, 4> on_holder{};  ///< sides of a frame that was found, in the order of Side
    double degrees_askew = 0;         ///< clockwise, of a frame that was found
    bool lacks_clear_edge = false;    ///< though one is to be printed
    /// Pictures that lie in a row in the frame, and where the first of them does.
    int pictures = 1;
    Region first_picture{};
};

/// Searches only where the options leave something open. Throws Error when a clear edge is asked for where
/// nothing is searched.
[[nodiscard]] Framing framing(const ScanPixels&, const ScanOptions&, Notes&);
/// Throws Error(Fault::data) when a clear edge is to be printed that is not there.
void require_clear_edge(const Framing&, const ScanPixels&);

/// A scan turned so that the frame stands upright, and that frame.
struct UprightScan {
    ScanPixels pixels;
    Framing framed;
};
/// Nothing where the frame was not found or stands upright, where it is to stay askew, or where turning
/// shows no larger one. The film around it is judged on the scan as it lies. Notes are replaced by those of
/// the turned scan.
[[nodiscard]] std::optional<UprightScan> set_upright(const ScanPixels& lying, const Framing& askew,
                                                     const ScanOptions&, Notes&);

}  // namespace fogproof::scan
