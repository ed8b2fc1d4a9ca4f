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
            const double from = i * kBandStep, to = from + kBand;
            const int left = upright ? int(from * width) : 0,
                      right = upright ? std::max(left + 1, int(to * width)) : width;
            const int top = upright ? 0 : int(from * height),
                      bottom = upright ? height : std::max(top + 1, int(to * height));
            std::vector<double> band;
            for (int y = top; y < std::min(bottom, height); ++y)
                for (int x = left; x < std::min(right, width); ++x)
                    band.push_back(densities[std::size_t(y) * std::size_t(width) + std::size_t(x)].value);
            if (const double range = range_of(std::move(band)); range > widest.range)
                widest = {upright, from, to, range};
        }
    return widest;
}

}  // namespace fogproof::choose
