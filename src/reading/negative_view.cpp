// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/negative_view.hpp"

#include <algorithm>

#include "fogproof/base/error.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::reading {
namespace {

// Frames are looked for on a copy of about this many pixels along, to a pixel or two of it.
constexpr double kFrameSearch = 640, kGrown = 4.5, kDrawnIn = 1.0;
constexpr int kEdgePixels = 2400;

}  // namespace

NegativeView negative_view(const Scan& scan, const ScanOptions& options) {
    const auto whole = [](const Scan& seen) {
        return NegativeView{[seen](int long_side) { return small_negative(seen, long_side); }, {}};
    };
    if (options.frame || options.whole || !scan.has_clear_reference()) return whole(scan);
    const Region frame = scan.frame();
    const double unit = std::max(frame.width, frame.height) / kFrameSearch;
    const int grown = int(kGrown * unit) + 2;
    ScanOptions around = options;
    around.frame = {std::max(0, frame.left - grown), std::max(0, frame.top - grown), 0, 0};
    around.frame->width = frame.left + frame.width + grown - around.frame->left;
    around.frame->height = frame.top + frame.height + grown - around.frame->top;
    Notes told_already;
    try {
        const Scan seen = Scan::open(scan.path(), around, told_already);
        const SmallNegative view = small_negative(seen, kEdgePixels);
        const double scale = double(view.width) / seen.width();
        NegativeView made = whole(seen);
        made.edges = film_edges(view, (grown - kDrawnIn * unit) * scale);
        return made;
    } catch (const Error&) {
        // The frame lies so close to the scan's rim that there is nothing around it.
        return whole(scan);
    }
}

}  // namespace fogproof::reading
