// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the code values of a scan stand for: code -> linear light -> density of the negative.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::negative {

/// How code values encode light when no profile says so.
enum class Encoding {
    linear,   ///< proportional to transmittance
    srgb,     ///< IEC 61966-2-1
    gamma22,  ///< pure power 2.2
    density,  ///< proportional to density: full scale is density 0, code 0 is density 4
};

/// Linear light of a value on the scale 0 (no light) to 1 (full scale); values below 0 count as 0.
[[nodiscard]] double light_of_value(Encoding, double value);
/// Linear light of every code from 0 to codes-1, in [0, 1].
[[nodiscard]] std::vector<double> light_of_codes(Encoding, std::size_t codes);

/// The coding in which float and colour scans are cut to 16 bits: equal steps of density, 7.6e-5 each, from
/// density 4.7 (code 1) to -0.3 (code 65535); code 0 is no light at all.
[[nodiscard]] std::vector<double> light_of_log_codes();
inline constexpr double kLogCodeSpan = 5.0, kLogCodeTop = 0.3;
/// The nearest of those codes; light too faint or too strong for them takes the last one, none at all code 0.
[[nodiscard]] std::uint16_t log_code_of_light(float light);

/// Linear light that the scanner gives for clear film and for no light at all.
struct ScanReference {
    double clear = 1.0;
    double black = 0.0;
};

/// An assumed film for a digital picture: scene luminance -> density of a virtual negative.
struct VirtualFilm {
    double slope =
        0.60;  ///< density per log10 of scene light on the straight line (average gradient; judgement)
    double range = 1.10;  ///< density of the picture's white above clear film (judgement)
};

/// Highest negative density distinguished; darker codes are taken as this.
inline constexpr double kDensestNegative = 4.0;

/// Dn = -log10((T - black) / (clear - black)), kept within [-0.3, 4]. Throws Error(Fault::data) when clear is
/// not above black.
[[nodiscard]] std::vector<NegativeDensity> negative_densities(std::span<const double> light, ScanReference);
/// Density of a virtual negative for picture luminance in [0, 1]: a straight line of the film's slope that
/// reaches its range at white and meets clear film in a smooth toe.
[[nodiscard]] std::vector<NegativeDensity> virtual_densities(std::span<const double> luminance, VirtualFilm);

}  // namespace fogproof::negative
