// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/negative_view.hpp"

#include <algorithm>
#include <cmath>

#include "scan/small_negative.hpp"

namespace fogproof::reading {
namespace {

// Frames are looked for on a copy of about this many pixels along, to a pixel or two of it.
constexpr double kFrameSearch = 640, kGrown = 4.5, kDrawnIn = 1.0;
constexpr int kEdgePixels = 2400;
constexpr std::size_t kCoarseCodes = 256;

FramePlace place_of(const Scan& scan, double x, double y) {
    const Region at = scan.in_print(scan.as_turned({int(std::lround(x)), int(std::lround(y)), 0, 0}));
    const double half = half_diagonal(scan.width(), scan.height());
    return {(at.left - scan.width() / 2.0) / half, (at.top - scan.height() / 2.0) / half};
}

}  // namespace

NegativeView negative_view(const Scan& scan, const ScanOptions& options) {
    const auto whole = [](const Scan& seen) {
        return NegativeView{[seen](int long_side) { return small_negative(seen, long_side); },
                            [seen](double x, double y) { return place_of(seen, x, y); },
                            {},
                            std::max(seen.width(), seen.height()),
                            seen.scale().size() <= kCoarseCodes};
    };
    if (options.frame || options.whole || !scan.has_clear_reference()) return whole(scan);
    const Region frame = scan.frame();
    const double unit = std::max(frame.width, frame.height) / kFrameSearch;
    const int grown = int(kGrown * unit) + 2;
    const auto seen = scan.grown(grown);
    // The frame lies so close to the scan's rim that there is nothing around it.
    if (!seen) return whole(scan);
    const SmallNegative view = small_negative(*seen, kEdgePixels);
    const double scale = double(view.width) / seen->width();
    NegativeView made = whole(*seen);
    made.edges = film_edges(view, (grown - kDrawnIn * unit) * scale);
    return made;
}

}  // namespace fogproof::reading
