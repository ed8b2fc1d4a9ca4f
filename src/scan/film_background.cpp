// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/film_background.hpp"

#include <algorithm>

#include "base/quantile.hpp"

namespace fogproof::scan {
namespace {

// Judgement, as no scanner is like the next.
constexpr double kThinnestHolder = 1.6;  // density above the brightest part that a holder has at least
constexpr double kHolderSpread = 0.35;   // density; scanner noise and stray light on the holder

}  // namespace

double brightest_density(const SmallScan& scan) {
    std::vector<float> sorted = scan.density;
    return in_order(sorted, sorted.size() / 500);
}

/// An opaque holder shows at the rim of the scan or not at all.
double holder_density(const SmallScan& scan, double brightest) {
    std::vector<float> rim, dark;
    const int deep = std::max(1, int(0.015 * std::min(scan.width, scan.height)));
    for (int y = 0; y < scan.height; ++y)
        for (int x = 0; x < scan.width; ++x) {
            if (std::min({x, y, scan.width - 1 - x, scan.height - 1 - y}) >= deep) continue;
            const float density = scan.at(x, y);
            rim.push_back(density);
            if (density > brightest + kThinnestHolder) dark.push_back(density);
        }
    if (double(dark.size()) < 0.03 * double(rim.size())) return kNoDensity;
    return std::max(double(median(std::move(dark))) - kHolderSpread, brightest + kThinnestHolder);
}

std::vector<double> often_among_the_thin(const SmallScan& scan, double brightest) {
    constexpr int kBins = 130, kReach = 3;
    constexpr double kBin = 0.01;
    std::vector<int> count(kBins);
    for (const float density : scan.density)
        if (const int bin = int((density - brightest) / kBin); bin >= 0 && bin < kBins)
            ++count[std::size_t(bin)];
    const auto around = [&](int bin) {
        int sum = 0;
        for (int near = std::max(0, bin - 1); near <= std::min(kBins - 1, bin + 1); ++near)
            sum += count[std::size_t(near)];
        return sum;
    };
    std::vector<double> often;
    for (int bin = kBins - 1; bin >= 0; --bin) {
        bool is_peak = around(bin) > 0.002 * double(scan.density.size());
        for (int near = std::max(0, bin - kReach); near <= std::min(kBins - 1, bin + kReach); ++near)
            is_peak = is_peak && (near < bin ? around(near) < around(bin) : around(near) <= around(bin));
        if (is_peak) often.push_back(brightest + (bin + 0.5) * kBin);
    }
    return often;
}

}  // namespace fogproof::scan
