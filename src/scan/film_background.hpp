// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What can lie around a picture on a film scan, told apart by density.
#pragma once

#include <cmath>
#include <limits>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

/// A small picture of a scan in densities, row by row.
struct SmallScan {
    int width = 0, height = 0;
    std::vector<float> density;
    [[nodiscard]] float at(int x, int y) const {
        return density[std::size_t(y) * std::size_t(width) + std::size_t(x)];
    }
};

// Judgement: unevenness of a scanner's light and grain, in density.
inline constexpr double kClearTolerance = 0.05;
inline constexpr double kNoDensity = std::numeric_limits<double>::infinity();

/// Clear film, bare light that is brighter still, and an opaque holder.
struct Background {
    double clear = -kNoDensity, holder = kNoDensity;
    [[nodiscard]] bool is_clear(double density) const { return std::abs(density - clear) <= kClearTolerance; }
    [[nodiscard]] bool is_holder(double density) const { return density >= holder; }
    [[nodiscard]] bool covers(double density) const {
        return density <= clear + kClearTolerance || is_holder(density);
    }
};

/// The density that only a five-hundredth of the scan is thinner than: no pinhole, no hot pixel.
[[nodiscard]] double brightest_density(const SmallScan&);
/// Density from which on things at the rim of the scan are its holder; infinite when it shows none.
[[nodiscard]] double holder_density(const SmallScan&, double brightest);
/// Thin densities that occur often, the densest first: what might be clear film.
[[nodiscard]] std::vector<double> often_among_the_thin(const SmallScan&, double brightest);

}  // namespace fogproof::scan
