// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/strip_place.hpp"

#include <algorithm>
#include <vector>

#include "base/quantile.hpp"
#include "base/words.hpp"

namespace fogproof::choose {
namespace {

constexpr double kBand = 0.15, kBandStep = 0.05;

double range_of(std::vector<double> densities) {
    const double tenth = quantile(densities, 0.1);
    return quantile(densities, 0.9) - tenth;
}

}  // namespace

std::string TestStripPlace::in_words() const {
    return std::string(upright ? "the whole height" : "the whole width") + ", between " +
           fixed(100 * from, 0) + " and " + fixed(100 * to, 0) + " % of the " +
           (upright ? "width, counted from the left" : "height, counted from the top");
}

TestStripPlace strip_place(int width, int height, std::span<const NegativeDensity> densities) {
    TestStripPlace widest{true, 0, kBand, -1};
    for (const bool upright : {true, false})
        for (int i = 0; i * kBandStep + kBand <= 1 + 1e-9; ++i) {
            TestStripPlace place{upright, i * kBandStep, i * kBandStep + kBand, 0};
            std::vector<double> values;
            for (const NegativeDensity density : band_densities(place, 0, 1, width, height, densities))
                values.push_back(density.value);
            place.range = range_of(std::move(values));
            if (place.range > widest.range) widest = place;
        }
    return widest;
}

std::vector<NegativeDensity> band_densities(const TestStripPlace& place, int band, int bands, int width,
                                            int height, std::span<const NegativeDensity> densities) {
    struct Reach {
        int from, to;
    };
    const auto across = [&](int pixels) {
        const int from = std::min(int(place.from * pixels), pixels - 1);
        return Reach{from, std::clamp(int(place.to * pixels), from + 1, pixels)};
    };
    const auto along = [&](int pixels) {
        const int from = std::min(pixels * band / bands, pixels - 1);
        return Reach{from, std::max(pixels * (band + 1) / bands, from + 1)};
    };
    const Reach x = place.upright ? across(width) : along(width),
                y = place.upright ? along(height) : across(height);
    std::vector<NegativeDensity> inside;
    for (int row = y.from; row < y.to; ++row) {
        const auto begin = densities.begin() + std::ptrdiff_t(row) * width;
        inside.insert(inside.end(), begin + x.from, begin + x.to);
    }
    return inside;
}

}  // namespace fogproof::choose
