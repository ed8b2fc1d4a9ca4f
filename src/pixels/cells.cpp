// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/cells.hpp"

#include <algorithm>

namespace fogproof::pixels {

std::vector<Cell> fractional_cells(int pixels, int cells) {
    std::vector<Cell> made{std::size_t(cells)};
    const double scale = double(cells) / pixels;
    int current = 0;
    for (int pixel = 0; pixel < pixels; ++pixel) {
        const int cell = std::min(int(pixel * scale), cells - 1);
        for (; current < cell; ++current)
            made[std::size_t(current) + 1].begin = made[std::size_t(current) + 1].end = pixel;
        Cell& here = made[std::size_t(cell)];
        const double end = (pixel + 1) * scale;
        if (cell + 1 == cells || !(end > cell + 1)) {
            here.end = pixel + 1;
            continue;
        }
        const double share = (cell + 1 - pixel * scale) / scale;
        here.tail = pixel;
        here.tail_share = share;
        Cell& next = made[std::size_t(cell) + 1];
        next.lead = pixel;
        next.lead_share = 1 - share;
        next.begin = next.end = pixel + 1;
        current = cell + 1;
    }
    return made;
}

std::vector<Cell> whole_cells(int pixels, int factor) {
    std::vector<Cell> made;
    const int cells = (pixels + factor / 2) / factor;
    for (int cell = 0; cell < cells; ++cell) {
        Cell here{cell * factor, std::min((cell + 1) * factor, pixels), 0, 0, 0, 0};
        if (const int missing = (cell + 1) * factor - pixels; missing > 0) {
            here.tail = pixels - 1;
            here.tail_share = missing;
        }
        made.push_back(here);
    }
    return made;
}

}  // namespace fogproof::pixels
