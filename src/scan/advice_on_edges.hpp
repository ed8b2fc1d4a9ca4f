// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the fog of a sheet's edges costs a picture, and what a wider margin or another turn of the sheet would
// save.
#pragma once

#include "choose/edge_advice.hpp"
#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/sheet_fog.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::scan {

/// Of these steps without their local work, on the paper exactly as its pack says.
[[nodiscard]] EdgeAdvice advice_on_edges(const Printing&, const PrintSteps&, const SheetFog&,
                                         const SheetLayout&, const SmallNegative&);

}  // namespace fogproof::scan
