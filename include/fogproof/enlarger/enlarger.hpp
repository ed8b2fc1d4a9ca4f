// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From a density of the negative to the light that reaches the paper.
// Not modelled: uneven illumination, spectral colour of the negative, stray light in the room.
#pragma once

#include <optional>
#include <span>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::enlarger {

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

/// What lay in the carrier while a wedge, a slip or a black was exposed. Seconds mean nothing without it:
/// clear film keeps back 10^-(base + fog) of the light.
struct Carrier {
    enum class Held {
        untold,      ///< nobody said; taken as clear film like the negative's
        clear_film,  ///< like the negative's, whatever its density
        density,     ///< so much over an empty carrier; 0 is the empty carrier
    };
    Held held = Held::untold;
    double density = 0;  ///< where it is told

    [[nodiscard]] static Carrier of(double density) { return {Held::density, density}; }
    friend bool operator==(const Carrier&, const Carrier&) = default;
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
    HeadSetting setting;     ///< in use for this print
    HeadSetting anchor;      ///< at which the pack's seconds were measured
    Carrier anchor_carrier;  ///< the zero of the pack's seconds: what they were measured through
    /// log10 of today's light over that of the pack's readings, at the same setting: another lamp, another
    /// mains voltage. Everything that takes light takes it, flashes too.
    double log_light_today = 0.0;
    /// Base + fog of the negative in use, over an empty carrier. Nothing: not known, taken as the anchor's.
    std::optional<double> base_fog;
    friend bool operator==(const Enlarger&, const Enlarger&) = default;
};

/// One exposure under the enlarger.
struct Exposure {
    Filter filter;
    Seconds time;
};

/// Light at one place of the easel, summed over exposures, in seconds of the light that reached it at the
/// anchor setting through what lay in the carrier then.
struct EaselLight {
    double blue = 0.0;
    double green = 0.0;
};

/// Light of the head, today and at its setting, over that at the anchor:
/// ((m0+1)/(m+1))^2 (N0/N)^2 10^log_light_today.
/// Source: exposure goes with (m+1)^2, "Theory & Practice" (L. P. Clerc, c. 1937), Practical Enlarging, about
/// s. 770; f-number by definition. Assumes a diffusion head.
[[nodiscard]] double head_factor(const Enlarger&);

/// log10 of the light through a density in the carrier over that through what lay there at the anchor. Here,
/// and nowhere else, the two zeros of seconds meet. 0 where the anchor's carrier is not known as a density:
/// it held clear film like the negative's then. Base and fog are taken not to scatter (no Callier factor).
[[nodiscard]] double log_gain_through(double carrier_density, const Enlarger&);
/// The same for clear film of the negative in use, and for light without a negative: an open gate.
[[nodiscard]] double log_gain_through_film(const Enlarger&);
[[nodiscard]] double log_gain_without_film(const Enlarger&);

/// T' = (1-f) 10^(-Q Dn) + f mean, with mean the frame's own average of 10^(-Q Dn).
[[nodiscard]] double transmitted(NegativeDensity, double mean_transmitted, const Enlarger&);

/// Sum over exposures of T' t^p scaled for head and film; flash exposures reach the paper without a negative,
/// through an open gate.
[[nodiscard]] EaselLight light_at_easel(NegativeDensity, double mean_transmitted, const Enlarger&,
                                        std::span<const Exposure> exposures,
                                        std::span<const Exposure> flashes = {});

/// Time at the enlarger's setting that gives a log exposure through the negative's clear film, without flare.
[[nodiscard]] Seconds time_giving(LogExposure, const Enlarger&);
/// The same without a negative.
[[nodiscard]] Seconds flash_giving(LogExposure, const Enlarger&);

/// The same as the pack counts its seconds: at the anchor setting, through what lay in the carrier then.
[[nodiscard]] Seconds time_at_anchor(LogExposure, const Enlarger&);

/// The inverse of time_giving() of a time given by its log10.
[[nodiscard]] LogExposure exposure_of(double log_seconds, const Enlarger&);

/// Factor on an exposure for a step of so many stops: 2^stops.
[[nodiscard]] double stops_factor(double stops);

}  // namespace fogproof::enlarger
