// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much bleach clears the fog of a sheet, and the times and percents that follow from it.
#pragma once

#include <optional>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// A blank counts as clear when it is this close to fixed-only white, in visual density.
inline constexpr double kClearWithin = 0.02;

/// The clearing dose: brings the developed blank to within kClearWithin of the fixed-only white (silver
/// alone; stain is left out). Nothing when the blank of this development is that white already. A sheet whose
/// blank comes out darker than its pack says needs more.
[[nodiscard]] std::optional<double> clearing_dose(const PaperModel&, const DevelopStep&,
                                                  PrintDensity darker = {});
/// The same of a development that somebody has at hand already.
[[nodiscard]] std::optional<double> clearing_dose(const PaperModel&, const Developer&,
                                                  PrintDensity darker = {});

}  // namespace fogproof::print
