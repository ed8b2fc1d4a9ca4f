// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "negative/tones.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "fogproof/base/error.hpp"

namespace fogproof::negative {
namespace {

using Spot = std::pair<NegativeDensity, std::size_t>;  // a density at a place

}  // namespace

Tones::Tones(const Histogram& histogram, std::span<const NegativeDensity> scale)
    : places_(scale.empty() ? 0 : histogram.size() / scale.size()) {
    if (places_ == 0 || histogram.size() % scale.size() != 0)
        throw Error(
            Fault::data, "histogram of the frame",
            std::to_string(histogram.size()) + " codes for a scale of " + std::to_string(scale.size()));
    const auto total = std::accumulate(histogram.begin(), histogram.end(), std::uint64_t{0});
    if (total == 0) throw Error(Fault::data, "histogram of the frame", "no pixels");
    std::vector<std::pair<Spot, std::uint64_t>> counts;
    counts.reserve(histogram.size() - std::size_t(std::ranges::count(histogram, 0U)));
    for (std::size_t entry = 0; entry < histogram.size(); ++entry)
        if (histogram[entry] > 0)
            counts.emplace_back(Spot{scale[entry % scale.size()], entry / scale.size()}, histogram[entry]);
    // Densities of a scale mostly fall from code to code; then the order is that of the codes, backwards.
    if (counts.front() > counts.back()) std::ranges::reverse(counts);
    if (!std::ranges::is_sorted(counts)) std::ranges::sort(counts);
    tones_.reserve(counts.size());
    for (auto tone = counts.begin(); tone != counts.end();) {
        const Spot spot = tone->first;
        std::uint64_t count = 0;
        for (; tone != counts.end() && tone->first == spot; ++tone) count += tone->second;
        tones_.push_back({spot.first, double(count) / double(total), spot.second});
    }
}

NegativeDensity Tones::quantile(double share) const {
    // Rounding of the running sum must not lift a share of exactly one half to the next tone.
    constexpr double kRounding = 1e-12;
    double reached = 0;
    for (const auto& tone : tones_) {
        reached += tone.share;
        if (reached >= share - kRounding) return tone.density;
    }
    return tones_.back().density;
}

double Tones::mean_transmitted(double callier) const {
    double mean = 0;
    for (const auto& tone : tones_) mean += tone.share * std::pow(10.0, -callier * tone.density.value);
    return mean;
}

std::vector<Tone> Tones::gathered(std::size_t count) const {
    if (count == 0) throw Error(Fault::internal, "bins of tones", "0", "at least 1");
    const double low = tones_.front().density.value, span = tones_.back().density.value - low;
    std::vector<double> share(count * places_), weighted(count * places_);
    for (const auto& [density, part, place] : tones_) {
        const double along = span > 0 ? (density.value - low) / span * double(count) : 0.0;
        const auto bin = std::min(std::size_t(along), count - 1) * places_ + place;
        share[bin] += part;
        weighted[bin] += part * density.value;
    }
    std::vector<Tone> bins;
    for (std::size_t bin = 0; bin < share.size(); ++bin)
        if (share[bin] > 0) bins.push_back({{weighted[bin] / share[bin]}, share[bin], bin % places_});
    return bins;
}

}  // namespace fogproof::negative
