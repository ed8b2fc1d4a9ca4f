// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/light_pairs.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::scan {
namespace {

// Steps from which on two lights have shares of their own: below that a lean of the scatter changes no code.
constexpr double kLeaning = 100;

struct Moments {
    double mean, deviation, skew;
};

// Mean and scatter are kept.
void keep(LightPairs& pairs, std::size_t at, const Moments& light) {
    int share = LightPairs::kShares / 2;
    if (2 * light.deviation >= kLeaning) {
        const double g = std::clamp(light.skew, -6.0, 6.0);
        share = std::clamp(int(std::lround(LightPairs::kShares * 0.5 * (1 - g / std::sqrt(4 + g * g)))), 1,
                           LightPairs::kShares - 1);
    }
    const double of_brighter = double(share) / LightPairs::kShares;
    const double apart = light.deviation / std::sqrt(of_brighter * (1 - of_brighter));
    pairs.mean[at] = std::uint16_t(std::lround(std::clamp(light.mean, 0.0, pairs.steps - 1.0)));
    pairs.apart[at] = std::uint8_t(std::min(std::lround(apart / LightPairs::kApart), 255l));
    pairs.share[at] = std::uint8_t(share);
}

}  // namespace

LightPairs light_pairs(const Scan& scan, const Printing& printing, double darkest, double brightest,
                       int long_side) {
    const int steps = int(std::ceil((brightest - darkest) / LightPairs::kStep)) + 1;
    LightPairs pairs{reduced_size(scan, long_side), darkest, steps, {}, {}, {}};
    std::vector<double> first, second, third;
    for (const NegativeDensity density : scan.scale()) {
        const double light = (std::clamp(printing.light().log_light(density), darkest, brightest) - darkest) /
                             LightPairs::kStep;
        first.push_back(light);
        second.push_back(light * light);
        third.push_back(light * light * light);
    }
    const auto pixels = scan.pixels();
    const std::vector<double> mean = area_means(*pixels, first, pairs.size),
                              square = area_means(*pixels, second, pairs.size),
                              cube = area_means(*pixels, third, pairs.size);
    pairs.mean.resize(mean.size());
    pairs.apart.resize(mean.size());
    pairs.share.resize(mean.size(), LightPairs::kShares / 2);
    for (std::size_t i = 0; i < mean.size(); ++i) {
        const double m = mean[i], variance = std::max(0.0, square[i] - m * m),
                     deviation = std::sqrt(variance);
        const double lean = cube[i] - 3 * m * square[i] + 2 * m * m * m;
        keep(pairs, i, {m, deviation, deviation > 0 ? lean / (variance * deviation) : 0});
    }
    return pairs;
}

}  // namespace fogproof::scan
