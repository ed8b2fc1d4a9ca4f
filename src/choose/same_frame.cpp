// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/same_frame.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "base/words.hpp"

namespace fogproof::choose {
namespace {

// Judgement: coarse enough that a crop of some percent moves little from cell to cell.
constexpr int kGrid = 20;
// Judgement: prints of one frame, cropped by a tenth or of another contrast, agree to 0.8 and better.
constexpr double kLeastLikeness = 0.7;

std::vector<double> gridded(const TonePlane& plane) {
    std::vector<double> sum(kGrid * kGrid), count(kGrid * kGrid);
    for (int y = 0; y < plane.height; ++y)
        for (int x = 0; x < plane.width; ++x) {
            const std::size_t cell = std::size_t(y * kGrid / plane.height * kGrid + x * kGrid / plane.width);
            sum[cell] += plane.density[std::size_t(y) * std::size_t(plane.width) + std::size_t(x)].value;
            count[cell] += 1;
        }
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] /= std::max(count[i], 1.0);
    return sum;
}

// Ranks from 0; equal values share the mean of their ranks.
std::vector<double> ranks_of(const std::vector<double>& values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::sort(order, {}, [&](std::size_t i) { return values[i]; });
    std::vector<double> ranks(values.size());
    for (std::size_t from = 0; from < order.size();) {
        std::size_t to = from;
        while (to < order.size() && values[order[to]] == values[order[from]]) ++to;
        for (std::size_t i = from; i < to; ++i) ranks[order[i]] = double(from + to - 1) / 2;
        from = to;
    }
    return ranks;
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
    const double middle = double(a.size() - 1) / 2;
    double ab = 0, aa = 0, bb = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        ab += (a[i] - middle) * (b[i] - middle);
        aa += std::pow(a[i] - middle, 2);
        bb += std::pow(b[i] - middle, 2);
    }
    return aa > 0 && bb > 0 ? ab / std::sqrt(aa * bb) : 0;
}

// One of the eight ways to lay a square down.
std::vector<double> laid(const std::vector<double>& cells, int way) {
    std::vector<double> turned(cells.size());
    for (int y = 0; y < kGrid; ++y)
        for (int x = 0; x < kGrid; ++x) {
            const int from_x = way & 1 ? kGrid - 1 - x : x, from_y = way & 2 ? kGrid - 1 - y : y;
            turned[std::size_t(y * kGrid + x)] =
                cells[std::size_t(way & 4 ? from_x * kGrid + from_y : from_y * kGrid + from_x)];
        }
    return turned;
}

}  // namespace

double likeness_by_place(const TonePlane& a, const TonePlane& b) {
    if (std::min({a.width, a.height, b.width, b.height}) < kGrid) return 0;
    const auto first = ranks_of(gridded(a)), second = ranks_of(gridded(b));
    double best = -1;
    for (int way = 0; way < 8; ++way) best = std::max(best, correlation(first, laid(second, way)));
    return best;
}

std::optional<std::string> doubt_of_same_frame(const TonePlane& frame, const TonePlane& picture) {
    if (std::min({frame.width, frame.height, picture.width, picture.height}) < kGrid) return std::nullopt;
    const double likeness = likeness_by_place(frame, picture);
    if (likeness >= kLeastLikeness) return std::nullopt;
    return "does not look like this frame (agreement of tones by place " + fixed(likeness, 2) +
           "; the same picture has 1): it would set the tones of another picture as the goal; give a print "
           "or picture of "
           "this "
           "frame, cropped alike";
}

}  // namespace fogproof::choose
