// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Layer density of toned silver over wavelength, from two numbers or from the colour of a measured patch.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "fogproof/sheet/sheet.hpp"

namespace fogproof::sheet {

/// Of layer density 1 in the eye's mean. A measured patch is sought on this base behind this surface; throws
/// Error(Fault::config) with the toner's name where no density of the family has that colour.
[[nodiscard]] Spectrum toned_spectrum(const TonedColour&, const Spectrum& base, double surface,
                                      const std::string& toner);

}  // namespace fogproof::sheet
