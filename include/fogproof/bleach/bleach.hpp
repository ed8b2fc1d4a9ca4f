// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Rehalogenating bleach: silver in, less silver out.
// Not modelled: exhaustion within one print, edge effects, uneven wetting.
#pragma once

#include <array>

#include "fogproof/base/quantity.hpp"
#include "fogproof/emulsion/emulsion.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::bleach {

/// Layer densities; some 0, 0.3, 0.6, 0.95, 1.4 and 2 D above white on a print.
inline constexpr std::array kPaceNodes{0.0, 0.06, 0.15, 0.3, 0.5, 0.8};
/// Time after soaking in at which the power of time is neutral, so that k keeps its meaning.
inline constexpr double kPacedAt_s = 40;
/// ln of time after soaking in, in units of kPacedAt_s: 10, 20, 40, 80, 160 and 320 s.
inline constexpr std::array kQuickerNodes{-1.3862943611198906, -0.6931471805599453, 0.0,
                                          0.6931471805599453,  1.3862943611198906,  2.0794415416798357};

/// How this paper bleaches. Judgement until measured.
///
/// Two rules of the trade (common practice, no source) pull K apart. "Bleach takes the palest tones first:
/// blanks and highlights rise to the paper's own white, mid-tones lighten less, shadows least" wants K up to
/// 0.05 or so: at 0.15 a mid-tone of 0.9 D gains half as much lightness again as the blank. "Start from a
/// print about one stop darker and softer than wanted" wants 0.10 to 0.15: at 0.04 the print that is closest
/// once cleared starts half a stop to a stop darker. What the eye can see on one print, while it bleaches,
/// decides: the first rule.
struct BleachRate {
    double starvation = 0.04;   ///< K, layer density: below it a deposit goes in proportion to itself, above
                                ///< it at a fixed rate
    double per_second = 0.002;  ///< k: layer density per second in a bath of 1+50, at 20 C
    double dilution_exponent = 1.0;  ///< n
    double soak_s = 5.0;             ///< before the bath has reached the silver
    double per_kelvin =
        0.025;           ///< relative quickening per kelvin (diffusion in gelatin 2 to 3 %, from memory)
    double order = 1.0;  ///< m: below 1 thin deposits clear in a finite time, above 1 they linger; 1 where
                         ///< the rate of a thin deposit is proportional to it
    double time_exponent = 1.0;  ///< b: dose grows with time to this power; 1 where the bath keeps its pace,
                                 ///< below 1 where the way through the gelatin grows longer
    /// How this paper departs from the law, which a fit learns: ln of how much longer silver takes at the
    /// layer densities of kPaceNodes, linear between them. Whatever they are, more bleach never darkens and
    /// what was darker stays darker.
    std::array<double, kPaceNodes.size()> pace{};
    /// And how the bath departs from the power of time: ln of how much faster the dose grows with ln of time
    /// at kQuickerNodes, linear between them. Whatever they are, a longer bleach is no weaker one.
    std::array<double, kQuickerNodes.size()> quicker{};
    friend bool operator==(const BleachRate&, const BleachRate&) = default;
};

/// The bath. Concentrate strengths are assumed unless the pack states them.
struct BleachBath {
    double ferricyanide_g_l = 100.0;  ///< potassium ferricyanide in the concentrate
    double bromide_g_l = 40.0;        ///< potassium bromide in the concentrate
    double parts = 50.0;              ///< N of 1+N
    double temperature_c = 20.0;
    friend bool operator==(const BleachBath&, const BleachBath&) = default;
};

struct BleachedSilver {
    LayerDensity left;
    LayerDensity lost;
};

/// Ferricyanide of the bath as it is used, g/L.
[[nodiscard]] double working_strength_g_l(const BleachBath&);

/// Dose that a bath gives in a time: x = k (c/c0)^n theta(T) s (max(t - t_soak, 0) / s)^b, with c the
/// ferricyanide of the working bath, c0 that of 100 g/L diluted 1+50 and s = kPacedAt_s. In units of layer
/// density. b = 1 leaves k (t - t_soak); other powers are judgement. Where the bath departs from the power,
/// ln of the time over s is mapped first, by the integral of e^quicker that keeps s.
[[nodiscard]] double bleach_dose(const BleachRate&, const BleachBath&, Seconds);
/// Time for a dose; 0 for none. The inverse of bleach_dose.
[[nodiscard]] Seconds bleach_time(const BleachRate&, const BleachBath&, double dose);

/// dA/dx = -A^m/(A^m + K^m), with starvation K and order m. For m = 1 that is -A/(A+K), so A_left =
/// K W0((A/K) e^((A-x)/K)), evaluated in logs; otherwise dose_between() is inverted by Newton. K = 0 takes
/// the same amount from every deposit (subtractive), large K with m = 1 the same share (proportional). The
/// power m is our own generalisation, judgement.
[[nodiscard]] BleachedSilver bleached(DevelopedSilver, double starvation, double dose, double order = 1);

/// Dose that brings one deposit down to another:
///   x = (A - A1) + K^m (A^(1-m) - A1^(1-m)) / (1-m), for m = 1: (A - A1) + K ln(A/A1).
/// 0 if it is already there.
[[nodiscard]] double dose_between(LayerDensity from, LayerDensity to, double starvation, double order = 1);

/// The same two with the numbers of a paper and its departure: the law holds for the density mapped by the
/// integral of e^pace, and the map is undone afterwards.
[[nodiscard]] BleachedSilver bleached(DevelopedSilver, const BleachRate&, double dose);
[[nodiscard]] double dose_between(LayerDensity from, LayerDensity to, const BleachRate&);

/// w e^w = e^log_argument, principal branch, for any finite argument. Relative error below 1e-13.
[[nodiscard]] double lambert_w_of_exp(double log_argument);

}  // namespace fogproof::bleach
