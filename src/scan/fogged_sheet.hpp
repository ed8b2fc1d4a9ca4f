// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The sheet of a pack under the frame of one scan, where such sheets are fogged at their edges.
#pragma once

#include <memory>

#include "choose/frame_on_sheet.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/sheet_fog.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

/// Nothing where the pack tells no such fog. Throws Error(no_input) for a map that is not there, Error(data)
/// for one that is no grey picture of a sheet of these proportions, and what laid_on_sheet() throws.
[[nodiscard]] std::shared_ptr<const SheetFog> fogged_sheet(const Pack&, SheetLayout, const Laying&,
                                                           const Scan&);
/// Its levels over the frame of the scan.
[[nodiscard]] LevelGrid fog_levels(const SheetFog&, const Scan&);

}  // namespace fogproof::scan
