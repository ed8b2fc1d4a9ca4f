// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "sheet/quick_bands.hpp"

#include <cmath>

#include "fogproof/sheet/colour.hpp"

namespace fogproof::sheet {
namespace {

// Where illuminant A and V(lambda) have their weight, thinner towards the ends.
constexpr std::array<double, kQuickBands> kBandsNm{470, 510, 550, 580, 610, 640, 680};

// A single band of the full sums.
Spectrum only(std::size_t band) {
    Spectrum single{};
    single[band] = 1;
    return single;
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
            WeightedBand& weighted = all[node];
            while (band_nm(weighted.band) < kBandsNm[node]) ++weighted.band;
            for (std::size_t i = 0; i < kBands; ++i) {
                const double share = polynomial(node, band_nm(i));
                weighted.visual += share * std::pow(10.0, -visual_density(only(i)).value);
                weighted.luminance += share * xyz_under_d50(only(i)).y;
            }
        }
        return all;
    }();
    return bands;
}

}  // namespace fogproof::sheet
