// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "sheet/quick_bands.hpp"

#include <cmath>

#include "fogproof/sheet/colour.hpp"

namespace fogproof::sheet {
namespace {

// Where illuminant A and V(lambda) have their weight, thinner towards the ends.
constexpr std::array<double, kQuickBands> kBandsNm{470, 510, 550, 580, 610, 640, 680};

// The visual weight of a single band of the full sum.
double visual_weight(std::size_t band) {
    Spectrum single{};
    single[band] = 1;
    return std::pow(10.0, -visual_density(single).value);
}

// Lagrange's polynomial of a node.
double polynomial(std::size_t node, double wavelength_nm) {
    double value = 1;
    for (std::size_t other = 0; other < kQuickBands; ++other)
        if (other != node) value *= (wavelength_nm - kBandsNm[other]) / (kBandsNm[node] - kBandsNm[other]);
    return value;
}

}  // namespace

const std::array<WeightedBand, kQuickBands>& quick_bands() {
    static const auto bands = [] {
        std::array<WeightedBand, kQuickBands> all{};
        for (std::size_t node = 0; node < kQuickBands; ++node) {
            double weight = 0;
            for (std::size_t i = 0; i < kBands; ++i)
                weight += visual_weight(i) * polynomial(node, band_nm(i));
            std::size_t band = 0;
            while (band_nm(band) < kBandsNm[node]) ++band;
            all[node] = {band, weight};
        }
        return all;
    }();
    return bands;
}

}  // namespace fogproof::sheet
