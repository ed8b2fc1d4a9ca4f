// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far all readings off a flatbed may be off together, which no number of them averages out.
#pragma once

#include <span>

#include "fogproof/base/quantity.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::reading {

// Judgement, all of them; no measurement found.
/// D, of whites: beside a patch of known density, and with the scan's full scale taken for density 0.
inline constexpr double kWhitesBesideAPatch = 0.02, kWhitesByFullScale = 0.05;
/// Reflectance that light strayed in the scanner may add where no dark patch tells it.
inline constexpr double kStrayLight = 0.005;
/// Share of the density by which a scale between two known patches may be off: 0.04 in a black of 2.0; and
/// what is added for scans of 8 bit, whose tone curve is the scanner program's own and only said to be sRGB.
inline constexpr double kScaleShare = 0.02, kToneCurveShare = 0.03;
/// The same where it is a guess that the codes are linear: codes with gamma would double densities.
inline constexpr double kGuessedCodingShare = 0.4;

/// Standard deviations.
struct FlatbedDoubt {
    double whites = kWhitesByFullScale;  ///< of all densities together
    double stray = kStrayLight;          ///< of the reflectance that stray light adds
    double share = kScaleShare;          ///< of the density
};

/// D, of a density.
[[nodiscard]] double by_stray_light(const FlatbedDoubt&, double density);
/// D, standard deviation of a density by all of it. Not the scanner's noise.
[[nodiscard]] double flatbed_uncertainty(const FlatbedDoubt&, PrintDensity read);

/// Tells it with every row (common_error, dark_error, instrument "flatbed").
void tell_flatbed_doubt(std::span<Reading>, const FlatbedDoubt&);

}  // namespace fogproof::reading
