// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/bands.hpp"

#include <algorithm>

namespace fogproof::pixels {

std::vector<int> band_edges(const CodeSource& source, std::size_t band_bytes) {
    const auto together = std::size_t(source.lines_together());
    const std::size_t unit_bytes = together * source.line_bytes();
    const auto step = int(together * std::max<std::size_t>(1, band_bytes / unit_bytes));
    std::vector<int> edges{0};
    const int top = source.lines_above(), bottom = top + source.height();
    for (int edge = (top / step + 1) * step; edge < bottom; edge += step) edges.push_back(edge - top);
    edges.push_back(source.height());
    return edges;
}

}  // namespace fogproof::pixels
