// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>
#include <vector>

#include "choose/frame_on_sheet.hpp"
#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/rooms.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

/// A warning where the picture, as large as the enlarger makes it, does not go on the sheet within its
/// margins but for a twentieth of its length: its seconds are not those of a picture that does. None where
/// the scan does not say how large the frame is.
[[nodiscard]] std::vector<std::string> oversize_warnings(const Scan&, const Enlarger&, const SheetLayout&);

}  // namespace fogproof::scan
