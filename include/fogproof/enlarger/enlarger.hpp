// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From a density of the negative to the light that reaches the paper.
// Not modelled: uneven illumination, spectral colour of the negative, stray light in the room.
#pragma once

#include <span>

#include "fogproof/base/quantity.hpp"

namespace fogproof {

/// A contrast filter as the paper sees it: how much of clear-film light it lets through to the blue and to
/// the green sensitivity of the emulsion. green 0 is graded paper or the hardest filter.
struct Filter {
    double blue = 1.0;
    double green = 0.0;
};

/// Head setting: magnification of the print (long side of print over long side of frame) and f-number.
struct HeadSetting {
    double magnification = 5.0;
    double f_number = 8.0;
    friend bool operator==(const HeadSetting&, const HeadSetting&) = default;
};

/// The enlarger as a light path.
struct Enlarger {
    /// Callier Q: specular over diffuse density. 1.0 diffusion head, 1.2 to 1.5 condenser (from memory).
    double callier = 1.0;
    /// Share of the frame's mean light that is spread evenly over the easel. Judgement; 0.01 to 0.05 from
    /// memory.
    double flare = 0.01;
    /// Schwarzschild exponent of the paper, effective exposure t^p; 1 where reciprocity holds.
    double reciprocity = 1.0;
    HeadSetting setting;  ///< in use for this print
    HeadSetting anchor;   ///< at which the pack's seconds were measured
    friend bool operator==(const Enlarger&, const Enlarger&) = default;
};

/// One exposure under the enlarger.
struct Exposure {
    Filter filter;
    Seconds time;
};

/// Light at one place of the easel, in seconds of clear-film light at the anchor setting, summed over
/// exposures.
struct EaselLight {
    double blue = 0.0;
    double green = 0.0;
};

/// Light of the head at its setting over that at the anchor: ((m0+1)/(m+1))^2 (N0/N)^2.
/// Source: exposure goes with (m+1)^2, "Theory & Practice" (L. P. Clerc, c. 1937), Practical Enlarging, about
/// s. 770; f-number by definition. Assumes a diffusion head.
[[nodiscard]] double head_factor(const Enlarger&);

/// T' = (1-f) 10^(-Q Dn) + f mean, with mean the frame's own average of 10^(-Q Dn).
[[nodiscard]] double transmitted(NegativeDensity, double mean_transmitted, const Enlarger&);

/// Sum over exposures of T' t^p scaled for the head; flash exposures reach the paper without a negative.
[[nodiscard]] EaselLight light_at_easel(NegativeDensity, double mean_transmitted, const Enlarger&,
                                        std::span<const Exposure> exposures,
                                        std::span<const Exposure> flashes = {});

/// Time at the enlarger's setting that gives a log exposure through clear film without flare.
[[nodiscard]] Seconds time_giving(LogExposure, const Enlarger&);

/// The inverse: log exposure through clear film of a time given by its log10.
[[nodiscard]] LogExposure exposure_of(double log_seconds, const Enlarger&);

/// Factor on an exposure for a step of so many stops: 2^stops.
[[nodiscard]] double stops_factor(double stops);

}  // namespace fogproof
