// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The prints of a proof grid one by one, as pictures to be embedded in a page.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "picture/grid.hpp"

namespace fogproof::picture {

/// A print on its border with the fixed-only slip at its right, as the grid shows it: an 8-bit JPEG with the
/// profile inside.
struct CellPicture {
    std::string jpeg;
    int width = 0, height = 0;
    Region frame;  ///< of the negative within it
};

inline constexpr int kCellQuality = 86;  ///< JPEG: no seam or ringing to be seen at twice the size

/// The same pixels as in a grid of the same look. One pass over the scan; the white of the first cell counts
/// for relative rendering.
[[nodiscard]] std::vector<CellPicture> cell_pictures(const Scan&, std::span<const GridCell>, const GridLook&,
                                                     const OutputProfile&, const LocalMasks& = {},
                                                     int quality = kCellQuality);

}  // namespace fogproof::picture
