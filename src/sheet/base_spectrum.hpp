// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A smooth spectrum for a paper base of which only density and colour are known.
#pragma once

#include "fogproof/rooms.hpp"
#include "fogproof/sheet/sheet.hpp"

namespace fogproof::sheet {

/// Base reflectance at each band so that the clear sheet, surface light included, shows the white of the
/// constants: its density is d0 + d1 u + d2 u^2 with u = (lambda - 550 nm) / 150 nm. Judgement: any base that
/// shows these three numbers is as good; this one is the plainest. Throws Error(Fault::config) where no white
/// base can.
[[nodiscard]] Spectrum base_spectrum(const SheetConstants&);

}  // namespace fogproof::sheet
