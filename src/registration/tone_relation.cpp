// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/tone_relation.hpp"

#include <algorithm>

namespace fogproof::registration {
namespace {

constexpr std::size_t kFewestInABin = 40;

// Pool adjacent violators: where the curve falls, neighbours take their common mean.
std::vector<double> made_rising(const std::vector<double>& values) {
    struct Pool {
        double sum;
        std::size_t count;
        [[nodiscard]] double mean() const { return sum / double(count); }
    };
    std::vector<Pool> pools;
    for (const double value : values) {
        pools.push_back({value, 1});
        while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
            const Pool last = pools.back();
            pools.pop_back();
            pools.back().sum += last.sum, pools.back().count += last.count;
        }
    }
    std::vector<double> rising;
    for (const Pool& pool : pools) rising.insert(rising.end(), pool.count, pool.mean());
    return rising;
}

float median(std::span<ToneRelation::Pair> pairs, float ToneRelation::Pair::*which) {
    const auto middle = pairs.begin() + std::ptrdiff_t(pairs.size() / 2);
    std::ranges::nth_element(pairs, middle, {}, which);
    return (*middle).*which;
}

}  // namespace

ToneRelation::ToneRelation(std::vector<Pair> pairs, int bins) {
    std::ranges::sort(pairs, {}, &Pair::negative);
    const std::size_t each = std::max(kFewestInABin, pairs.size() / std::size_t(bins) + 1);
    std::vector<double> scans;
    for (std::size_t from = 0; from + kFewestInABin <= pairs.size(); from += each) {
        const std::span<Pair> bin(pairs.data() + from, std::min(each, pairs.size() - from));
        const float negative = bin[bin.size() / 2].negative;
        if (!points_.empty() && negative <= points_.back().negative) continue;
        points_.push_back({negative, 0});
        scans.push_back(double(median(bin, &Pair::scan)));
    }
    const auto rising = made_rising(scans);
    for (std::size_t i = 0; i < points_.size(); ++i) points_[i].scan = float(rising[i]);
}

float ToneRelation::at(float negative) const {
    if (points_.empty()) return negative;
    const auto above = std::ranges::upper_bound(points_, negative, {}, &Pair::negative);
    if (above == points_.begin()) return points_.front().scan;
    if (above == points_.end()) return points_.back().scan;
    const Pair &low = *(above - 1), &high = *above;
    return low.scan + (high.scan - low.scan) * (negative - low.negative) / (high.negative - low.negative);
}

}  // namespace fogproof::registration
