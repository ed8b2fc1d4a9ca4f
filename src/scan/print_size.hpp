// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "choose/frame_on_sheet.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

/// A warning where the picture, as large as the enlarger makes it, does not go on the sheet within its
/// margins but for a twentieth of its length: its seconds are not those of a picture that does. Where it is
/// drawn at a size, longer side in mm, one where seconds are told and that is another size than theirs. None
/// where the scan does not say how large the frame is.
[[nodiscard]] std::vector<std::string> size_warnings(const Scan&, const Pack&, const SheetLayout&,
                                                     std::optional<double> drawn_mm = std::nullopt);

}  // namespace fogproof::scan
