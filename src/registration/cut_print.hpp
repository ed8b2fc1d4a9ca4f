// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Finds the frame of a negative on both halves of a print that was cut in two and laid on one scan. Each half
// is placed by itself, and the frame is cut where its two sides are best explained, one by each.
#pragma once

#include <array>
#include <span>
#include <string>

#include "fogproof/rooms.hpp"
#include "registration/placing.hpp"

namespace fogproof::registration {

/// Tie points of one half or of both are kept to. Throws Error(Fault::data), with `place` in front, where
/// either half is not found, shows something else or has other grain than the negative; Error(Fault::usage)
/// for tie points that tell no place.
[[nodiscard]] std::array<PlacedFrame, 2> placed_halves(const ReflectionImage& print, const NegativeView&,
                                                       const std::string& place,
                                                       std::span<const TiePoint> = {});

}  // namespace fogproof::registration
