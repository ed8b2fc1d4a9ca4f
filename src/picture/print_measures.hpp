// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How large a small print comes out: the picture, the border around it, and the fixed slip at its right.
#pragma once

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "picture/sheet_border.hpp"
#include "scan/area_means.hpp"

namespace fogproof::picture {

class PrintMeasures {
  public:
    /// The border is as wide as the sheet has it where the fog of its edges is known.
    PrintMeasures(PictureSize picture, const SheetFog*);

    /// Pixels of a print with its border, and with the slip.
    [[nodiscard]] int print_width() const { return picture_.width + border_.across(); }
    [[nodiscard]] int print_height() const { return picture_.height + border_.down(); }
    [[nodiscard]] int slip() const { return slip_; }
    [[nodiscard]] int width() const { return print_width() + slip_; }
    [[nodiscard]] const BorderWidths& border() const { return border_; }
    /// Where the picture lies on a print painted at 0, 0.
    [[nodiscard]] Region frame() const {
        return {border_.left, border_.top, picture_.width, picture_.height};
    }

  private:
    PictureSize picture_;
    BorderWidths border_;
    int slip_;
};

}  // namespace fogproof::picture
