// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A mask made small over its faint picture, for a worksheet to show where work is done.
#pragma once

#include <vector>

#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"
#include "proof/small_picture.hpp"
#include "scan/scan.hpp"

namespace fogproof::picture {

/// How light a small print is, row by row, 0 to 1; the frame that masks lie over, in shares of its sides.
struct FaintPicture {
    int width = 0, height = 0;
    std::vector<float> lightness;
    double left = 0, top = 0, right = 1, bottom = 1;
};
/// Of a print without its local work. One pass over the scan.
[[nodiscard]] FaintPicture faint_picture(const Scan&, const PrintModel&, int long_side);

/// The darker, the more of the mask; over light greys, so that its picture is seen where nothing is done.
[[nodiscard]] SmallPicture mask_jpeg(const LevelGrid&, int long_side, const FaintPicture&);

}  // namespace fogproof::picture
