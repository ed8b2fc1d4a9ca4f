// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whether two pictures show the same frame. Matching by rank takes only the tones of a picture and would take
// those of any other without a word.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Tones row by row, denser where the print is lighter.
struct TonePlane {
    int width, height;
    std::span<const NegativeDensity> density;
};

/// Spearman's rank correlation of tones at the same place, both planes stretched to one coarse grid; the best
/// of the eight ways to turn and mirror one of them. 0 where a plane has one tone alone.
[[nodiscard]] double likeness_by_place(const TonePlane&, const TonePlane&);

/// The warning when the likeness is too small for prints of one frame.
[[nodiscard]] std::optional<std::string> doubt_of_same_frame(const TonePlane& frame,
                                                             const TonePlane& picture);

}  // namespace fogproof::choose
