// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan made small the way the enlarger lens would: by the mean of the light it lets through.
#pragma once

#include <span>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

struct SmallNegative {
    int width = 0, height = 0;
    std::vector<NegativeDensity> density;  ///< row by row
};

/// Enough for tones of regions and the place of a strip; what is searched for reads the exact histogram.
inline constexpr int kOverviewPixels = 600;

/// Area mean of the negative's transmittance, pixels cut at exact fractions, so that its longer side has
/// `long_side` pixels (or the scan's own number, if smaller). One pass over the scan.
[[nodiscard]] SmallNegative small_negative(const Scan&, int long_side);
/// The same for several sizes, in one pass.
[[nodiscard]] std::vector<SmallNegative> small_negatives(const Scan&, std::span<const int> long_sides);

/// The part of it that shows the frame, without the clear edge that is printed with it.
[[nodiscard]] SmallNegative frame_of(const SmallNegative&, const Scan&);

/// The densities within a region of the upright scan as it lies in its file; where the scan was turned, the
/// region goes with its middle. What lies outside of the frame is left out; throws Error(Fault::usage) where
/// nothing is left.
[[nodiscard]] std::vector<NegativeDensity> densities_in(const SmallNegative&, const Scan&, const Region&);
/// Mean of the negative's transmittance over such a region, as density.
[[nodiscard]] NegativeDensity mean_density(const SmallNegative&, const Scan&, const Region&);

}  // namespace fogproof::scan
