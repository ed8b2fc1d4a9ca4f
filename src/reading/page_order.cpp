// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/page_order.hpp"

#include <algorithm>

namespace fogproof::reading {
namespace {

using Side = double ScanPoint::*;

double nearest(const StripReading& strip, Side side) {
    return std::ranges::min(strip.corners, {}, side).*side;
}
double farthest(const StripReading& strip, Side side) {
    return std::ranges::max(strip.corners, {}, side).*side;
}

}  // namespace

std::vector<StripReading> in_page_order(std::vector<StripReading> strips) {
    const auto top = [](const StripReading& strip) { return nearest(strip, &ScanPoint::second); };
    const auto left = [](const StripReading& strip) { return nearest(strip, &ScanPoint::first); };
    std::ranges::sort(strips, {}, top);
    for (auto row = strips.begin(); row != strips.end();) {
        const double middle = (top(*row) + farthest(*row, &ScanPoint::second)) / 2;
        const auto next = std::find_if(row, strips.end(), [&](const auto& s) { return top(s) > middle; });
        std::sort(row, next, [&](const auto& a, const auto& b) { return left(a) < left(b); });
        row = next;
    }
    return strips;
}

}  // namespace fogproof::reading
