// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The way of light through one sheet, the rooms in their order, once:
//   light -> silver -> what the bleach leaves -> what redevelopment gives back or a toner changes -> the
//   sheet as the eye sees it.
// Pictures, fit, search and charts all come this way. A quick form of it tabulates the answer of one room and
// leaves the order to these functions.
#pragma once

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// What is done to the sheet once it is developed and fixed.
struct Finishing {
    double bleach_dose = 0.0;  ///< as bleach_dose() gives it
    Seconds redevelop;         ///< in the second developer or the toner
    Toner toner = Toner::none;
};

/// Developed silver through the bleach and the redeveloper or toner.
[[nodiscard]] FinishedSilver finished(const PaperModel&, DevelopedSilver, const Finishing&);
/// Light all the way to finished silver. The developer must be one of this paper.
[[nodiscard]] FinishedSilver finished(const PaperModel&, const Developer&, EaselLight, const Finishing&);

}  // namespace fogproof::print
