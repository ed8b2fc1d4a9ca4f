// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where one burn or dodge would bring a print closer to what is wanted: a smooth part of the picture that the
// best exposure leaves too light or too dark.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "choose/same_frame.hpp"
#include "choose/starting_point.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct ProposedPlace {
    LocalWork::Kind kind = LocalWork::Kind::burn;
    double stops = 0;
    int width = 0, height = 0;         ///< of the mask, over the frame
    std::vector<std::uint16_t> level;  ///< row by row, 65535 for full; its rims as soft as a moving card's
    double across = 0, down = 0;       ///< its middle, parts of the frame
    double off = 0, off_then = 0;      ///< mean L* there over what is wanted (under: below 0), and with it
};

/// The burn or dodge that lowers the rms L* of the print of a point most; nothing where none of them is worth
/// its work. `plane` is the negative, of any size. What is wanted must depend on the tone alone.
[[nodiscard]] std::optional<ProposedPlace> proposed_place(const Printing&, const Wanted&,
                                                          const StartingPoint&, const TonePlane& plane);

}  // namespace fogproof::choose
