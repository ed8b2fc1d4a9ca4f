// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/edge_line.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fogproof::scan {
namespace {

EdgeLine least_squares(std::span<const EdgePoint> points, const EdgeLine& near) {
    double n = 0, sum_x = 0, sum_y = 0, sum_xx = 0, sum_xy = 0;
    for (const auto& point : points) {
        if (!lies_on(near, point)) continue;
        n += 1;
        sum_x += point.along;
        sum_y += point.depth;
        sum_xx += point.along * point.along;
        sum_xy += point.along * point.depth;
    }
    const double spread = n * sum_xx - sum_x * sum_x;
    if (!(spread > 0)) return near;
    const double slope = (n * sum_xy - sum_x * sum_y) / spread;
    return {(sum_y - slope * sum_x) / n, slope};
}

// How many points lie on a line; fewer are counted of one that cannot come to more than `most`.
std::ptrdiff_t count_on(const EdgeLine& line, std::span<const EdgePoint> points, std::ptrdiff_t most) {
    constexpr std::size_t kAtOnce = 64;
    std::ptrdiff_t may_miss = std::ptrdiff_t(points.size()) - most;
    for (std::size_t first = 0; first < points.size(); first += kAtOnce) {
        for (const EdgePoint& point : points.subspan(first, std::min(kAtOnce, points.size() - first)))
            may_miss -= !lies_on(line, point);
        if (may_miss <= 0) return most;
    }
    return most + may_miss;
}

}  // namespace

std::optional<EdgeLine> edge_through(std::span<const EdgePoint> points) {
    constexpr std::size_t kFewest = 8, kDrawn = 32;
    if (points.size() < kFewest) return std::nullopt;
    std::vector<EdgePoint> drawn;
    for (std::size_t i = 0; i < kDrawn; ++i) drawn.push_back(points[i * points.size() / kDrawn]);
    std::optional<EdgeLine> best;
    std::ptrdiff_t most = 0;
    for (std::size_t i = 0; i < kDrawn; ++i)
        for (std::size_t j = i + 1; j < kDrawn; ++j) {
            const double run = drawn[j].along - drawn[i].along;
            if (run < 4) continue;
            const double slope = (drawn[j].depth - drawn[i].depth) / run;
            if (std::abs(slope) > kSteepestEdge) continue;
            const EdgeLine line{drawn[i].depth - slope * drawn[i].along, slope};
            const auto count = count_on(line, points, most);
            if (count > most) {
                most = count;
                best = line;
            }
        }
    if (best) best = least_squares(points, *best);
    return best;
}

}  // namespace fogproof::scan
