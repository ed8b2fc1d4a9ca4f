// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where a picture lies on its sheet of paper.
#pragma once

#include <optional>

#include "choose/bleaching.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// In millimetres from the top left of the sheet, as the print is looked at.
struct FrameOnSheet {
    double sheet_width = 0, sheet_height = 0;
    double left = 0, top = 0, width = 0, height = 0;  ///< of the picture
    int quarter_turns = 0;  ///< clockwise, by which the sheet lies from WIDTH across and LENGTH down

    [[nodiscard]] double right_margin() const { return sheet_width - left - width; }
    [[nodiscard]] double bottom_margin() const { return sheet_height - top - height; }
};

/// How the picture is laid; what is not told is as large as the margins allow, in the middle of a sheet that
/// is turned to take it so.
struct Laying {
    std::optional<int> quarter_turns{};
    std::optional<double> long_side_mm{};  ///< of the picture; may go beyond the margins, never the sheet
};

/// For a picture of these proportions. Throws Error(Fault::usage) where the margins leave nothing, or the
/// picture is larger than the sheet.
[[nodiscard]] FrameOnSheet laid_on_sheet(const SheetLayout&, int picture_width, int picture_height,
                                         const Laying& = {});

}  // namespace fogproof::choose
