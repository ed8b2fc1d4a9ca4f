// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much of a frame's tones a print holds.
#pragma once

#include <span>

#include "choose/fresh_target.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "print/response.hpp"

namespace fogproof::choose {

struct TonalExtent {
    PrintDensity lightest;  ///< print density at the dense end of the frame
    PrintDensity darkest;   ///< and at its thin end
    double
        blank_highlights;  ///< share of the area lighter than T: less than 0.04 above the sheet's own border
    double
        blocked_shadows;  ///< share of the area darker than S: over 0.90 of the sheet's net maximum density
};

/// T and S as in ISO 6846 (see paper_numbers.hpp), on the finished sheet.
[[nodiscard]] TonalExtent tonal_extent(const Tones& frame, const PrintModel&);
/// Of tones at several places: its ends are those of the print's own densities.
[[nodiscard]] TonalExtent tonal_extent(std::span<const Tone>, const PrintModel&);

}  // namespace fogproof::choose
