// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/cell_pictures.hpp"

#include <vips/vips8>

#include "picture/canvas.hpp"
#include "picture/picture_file.hpp"
#include "picture/print_painter.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::picture {

std::vector<CellPicture> cell_pictures(const Scan& scan, std::span<const GridCell> cells,
                                       const GridLook& look, const OutputProfile& profile,
                                       const LocalMasks& local, int quality) {
    const SmallNegative small = small_negative(scan, look.cell_pixels);
    PictureOptions options;
    options.bits = 8;
    options.jpeg_quality = quality;
    const ColourCoder ink(profile, look.rendering, cells.front().panels.front().print.fixed_only().lab,
                          options.bits);
    const PrintPainter painter(small, ink, local);
    const PrintMeasures& measures = painter.measures();
    std::vector<CellPicture> pictures;
    for (const GridCell& cell : cells) {
        Canvas canvas(measures.width(), measures.print_height(), profile.channels(), options.bits,
                      ink.plain({0, 0, 0}));
        painter.paint(canvas, 0, 0, cell);
        pictures.push_back({jpeg_bytes(canvas.picture(), profile, options), measures.width(),
                            measures.print_height(), measures.frame()});
    }
    return pictures;
}

}  // namespace fogproof::picture
