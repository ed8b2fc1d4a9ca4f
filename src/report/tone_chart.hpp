// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The frame's histogram over the densities that a print can tell apart: what of the negative the paper holds.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Densities of the negative between which a print has tone: S of ISO 6846 on the thin side (darker prints as
/// full black), T on the dense side (lighter prints as border).
struct HeldRange {
    std::string label;
    NegativeDensity thin, dense;
};

/// Nothing where the print has no such range. T and S as tonal_extent() has them.
[[nodiscard]] std::optional<HeldRange> held_range(std::string label, const PrintModel&);
/// A drawing (SVG 1.1), readable in black and white: bars for the frame, a ruler for each range.
[[nodiscard]] std::string tones_svg(const Tones& frame, std::span<const HeldRange>);
/// The same in words, for those who cannot see it.
[[nodiscard]] std::string tones_words(const Tones& frame, std::span<const HeldRange>);

}  // namespace fogproof::report
