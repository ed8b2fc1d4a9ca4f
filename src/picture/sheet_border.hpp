// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The border of a print as wide as it is asked for, or as its sheet has it, in the colours of its paper.
#pragma once

#include <memory>
#include <optional>

#include "choose/frame_on_sheet.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "picture/colour_coder.hpp"
#include "pixels/print_border.hpp"
#include "pixels/sheet_fog.hpp"

namespace fogproof::picture {

/// The sheet around a picture of so many pixels, to its edges.
[[nodiscard]] BorderWidths margins_of(const FrameOnSheet&, int picture_width, int picture_height);

/// Levels of fog over a picture of so many pixels and its border together.
[[nodiscard]] LevelGrid fog_over(const SheetFog&, const BorderWidths&, int picture_width, int picture_height);

/// Lab of the unexposed paper at levels of fog from nil to full, in equal steps.
[[nodiscard]] std::vector<Lab> border_colours(const PrintModel&);

/// Around a picture of so many pixels; without fog it is of one colour.
[[nodiscard]] PrintBorder print_border(const BorderWidths&, const SheetFog*, const PrintModel&,
                                       const ColourCoder&, int picture_width, int picture_height);

}  // namespace fogproof::picture
