// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/frame_on_sheet.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::choose {
namespace {

std::string millimetres(double width, double height) {
    return decimal(width, 1) + " x " + decimal(height, 1) + " mm";
}

FrameOnSheet laid(const SheetLayout& layout, int width, int height, int turns,
                  std::optional<double> long_side_mm) {
    FrameOnSheet frame;
    frame.quarter_turns = turns;
    const bool is_upright = turns % 2 == 0;
    frame.sheet_width = is_upright ? layout.width : layout.length;
    frame.sheet_height = is_upright ? layout.length : layout.width;
    const double per_pixel = long_side_mm ? *long_side_mm / std::max(width, height)
                                          : std::min((frame.sheet_width - 2 * layout.margin) / width,
                                                     (frame.sheet_height - 2 * layout.margin) / height);
    frame.width = per_pixel * width;
    frame.height = per_pixel * height;
    frame.left = (frame.sheet_width - frame.width) / 2;
    frame.top = (frame.sheet_height - frame.height) / 2;
    return frame;
}

}  // namespace

FrameOnSheet laid_on_sheet(const SheetLayout& layout, int picture_width, int picture_height,
                           const Laying& laying) {
    if (2 * layout.margin >= std::min(layout.width, layout.length))
        throw Error(Fault::usage, "--margin",
                    decimal(layout.margin, 1) + " mm leaves nothing of a sheet of " +
                        millimetres(layout.width, layout.length),
                    "less than half of its shorter side");
    const auto with = [&](int turns) {
        return laid(layout, picture_width, picture_height, turns, laying.long_side_mm);
    };
    // A picture of a given size fits the way in which the margins are the more even.
    const auto least_margin = [](const FrameOnSheet& frame) { return std::min(frame.left, frame.top); };
    FrameOnSheet frame = with(laying.quarter_turns.value_or(0));
    if (!laying.quarter_turns) {
        const FrameOnSheet turned = with(1);
        if (turned.width > frame.width || least_margin(turned) > least_margin(frame) + 1e-9) frame = turned;
    }
    if (least_margin(frame) < -1e-6)
        throw Error(Fault::usage, "--long-side",
                    "a picture of " + millimetres(frame.width, frame.height) + " is larger than a sheet of " +
                        millimetres(frame.sheet_width, frame.sheet_height),
                    "a smaller --long-side, or another --sheet");
    return frame;
}

}  // namespace fogproof::choose
