// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How the tones of a frame lie, in the few numbers by which negatives, pictures and mishandled scans differ.
#pragma once

#include <optional>
#include <span>

#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"

namespace fogproof::negative {

/// Densities as scanned: full scale of the scan is 0.
struct ToneShape {
    double thinnest = 0;  ///< that a thousandth of the frame does not exceed
    double middle = 0;
    double densest = 0;   ///< that all but 0.5 % do not exceed
    double range = 0;     ///< of 98 % of the frame
    double lean = 0;      ///< ln of how much longer the dense half of that range is than the thin one
    double at_white = 0;  ///< share of the frame at full scale
    double at_black = 0;  ///< share without any light
    double missing = 0;   ///< share of codes that are skipped where the tones lie close; 0 where unknown
};

[[nodiscard]] ToneShape tone_shape(const Histogram&, std::span<const double> light);
/// Share of codes that are skipped between codes that occur often. What comes of a scanner with fewer bits
/// than its file, equal steps all along, skips none.
[[nodiscard]] double missing_codes(const Histogram&);

/// How many times likelier (natural logarithm) a picture is than a negative, by its tones alone.
[[nodiscard]] double likeness_of_a_positive(const ToneShape&);
/// How many times likelier (natural logarithm) codes made for the eye are than linear ones, when densities
/// were computed as from linear codes. `clear` is the density of the film around the frame, `rim` that of an
/// even dark rim above the thinnest tone, where seen.
[[nodiscard]] double likeness_of_gamma(const ToneShape&, std::optional<NegativeDensity> clear,
                                       std::optional<NegativeDensity> rim);

}  // namespace fogproof::negative
