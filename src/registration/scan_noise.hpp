// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How noisy the scan of a negative is: its noise looks like grain and is not on the print.
#pragma once

#include <optional>

#include "fogproof/rooms.hpp"
#include "registration/negative_view.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::registration {

/// What the noise of a negative's scan adds to the variance of a pixel's density: a power of the light.
struct ScanNoise {
    double variance = 0;  ///< at density 0
    double growth = 2;    ///< it grows as 10 to this times density
    /// Correlation of neighbouring pixels, which share a pixel of the scan where these are no whole parts.
    double neighbours = 0;
    [[nodiscard]] double at(double density) const;
};

/// As the clear film around the frame shows it, a little grain included; without clear film, and on 16 bit,
/// it is assumed. Nothing where nobody can tell what of the negative's detail is grain: codes of 8 bit
/// without clear film, or a clear film that is perfectly even, where the scan's coding has wiped out what is
/// faint.
[[nodiscard]] std::optional<ScanNoise> scan_noise(const SmallNegative&, const NegativeView&);

}  // namespace fogproof::registration
