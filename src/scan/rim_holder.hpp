// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A holder that is no denser than the picture, told by the clear film that parts it from the picture.
#pragma once

#include <array>
#include <optional>

#include "fogproof/rooms.hpp"
#include "scan/film_background.hpp"
#include "scan/frame_sides.hpp"

namespace fogproof::scan {

/// Density of what is painted: above all that a scanner gives.
inline constexpr float kPainted = 9;

/// The scan with everything painted that lies along its rim and is parted from the middle by film of this
/// density or thinner: a holder of whatever tone, and neighbours on the strip. Nothing where there is none.
[[nodiscard]] std::optional<SmallScan> with_rim_painted(const SmallScan&, double clear);
/// Sides on which a frame reaches the rim of the scan although the rim there has the even tone that it has
/// outside of the other sides: holder is taken for picture.
[[nodiscard]] std::array<bool, 4> sides_on_holder(const SmallScan&, const std::array<double, 4>& inset);

}  // namespace fogproof::scan
