// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "strips/bands.hpp"

#include <algorithm>

#include "strips/tiff_layout.hpp"

namespace fogproof {

std::vector<int> band_edges(const CodeLines& lines, std::size_t band_bytes) {
    const std::size_t together = std::size_t(lines.scan.lines_together());
    const std::size_t unit_bytes = together * lines.scan.layout().line_bytes();
    const auto step = int(together * std::max<std::size_t>(1, band_bytes / unit_bytes));
    std::vector<int> edges{0};
    const int top = lines.region.top, bottom = top + lines.region.height;
    for (int edge = (top / step + 1) * step; edge < bottom; edge += step) edges.push_back(edge - top);
    edges.push_back(lines.region.height);
    return edges;
}

}  // namespace fogproof
