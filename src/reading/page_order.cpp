// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/page_order.hpp"

#include <algorithm>

namespace fogproof::reading {
namespace {

using Side = double ScanPoint::*;

double nearest(const ScanPiece& piece, Side side) {
    return std::ranges::min(piece.corners, {}, side).*side;
}
double farthest(const ScanPiece& piece, Side side) {
    return std::ranges::max(piece.corners, {}, side).*side;
}

}  // namespace

void sort_as_a_page(std::vector<ScanPiece>& pieces) {
    const auto top = [](const ScanPiece& piece) { return nearest(piece, &ScanPoint::second); };
    const auto left = [](const ScanPiece& piece) { return nearest(piece, &ScanPoint::first); };
    std::ranges::sort(pieces, {}, top);
    for (auto row = pieces.begin(); row != pieces.end();) {
        const double middle = (top(*row) + farthest(*row, &ScanPoint::second)) / 2;
        const auto next = std::find_if(row, pieces.end(), [&](const auto& p) { return top(p) > middle; });
        std::sort(row, next, [&](const auto& a, const auto& b) { return left(a) < left(b); });
        row = next;
    }
}

}  // namespace fogproof::reading
