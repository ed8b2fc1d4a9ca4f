// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Spectra to colour: CIE 1931 2 degree observer, D50, at 10 nm from 380 to 730 nm; Lab and CIEDE2000.
#pragma once

#include <array>
#include <cstddef>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::sheet {

inline constexpr std::size_t kBands = 36;
inline constexpr double kFirstBand_nm = 380.0, kBandStep_nm = 10.0;
/// One value for every 10 nm from 380 to 730 nm.
using Spectrum = std::array<double, kBands>;
[[nodiscard]] constexpr double band_nm(std::size_t band) {
    return kFirstBand_nm + kBandStep_nm * double(band);
}

struct XYZ {
    double x{}, y{}, z{};
};
struct Lab {
    double l{}, a{}, b{};
};

/// White of the ICC profile connection space (ICC.1): the perfect diffuser under D50.
inline constexpr XYZ kD50{0.9642, 1.0, 0.8249};

/// Tristimulus values of a reflectance under D50, scaled so that the perfect diffuser gives exactly kD50.
/// (A 10 nm sum is off by about 0.05 % from the 1 nm one; scaling by the same weights keeps white free of
/// tint.)
[[nodiscard]] XYZ xyz_under_d50(const Spectrum& reflectance);
/// CIE 15: L*a*b* against a white, by default the perfect diffuser.
[[nodiscard]] Lab lab(const XYZ&, const XYZ& white = kD50);
[[nodiscard]] XYZ xyz(const Lab&, const XYZ& white = kD50);
/// ISO 5-3 visual density: log10(1/R) weighted by V(lambda) and illuminant A (weighting from memory).
[[nodiscard]] PrintDensity visual_density(const Spectrum& reflectance);
/// L* of a neutral reflection density: Y = 10^-D.
[[nodiscard]] double lightness(PrintDensity);
/// L* of a neutral after its density has grown by so much.
[[nodiscard]] double darkened(double lightness, PrintDensity by);

/// The tables behind it, for tests: colour matching functions and D50 as published.
[[nodiscard]] const Spectrum& cie_x();
[[nodiscard]] const Spectrum& cie_y();
[[nodiscard]] const Spectrum& cie_z();
[[nodiscard]] const Spectrum& cie_d50();

}  // namespace fogproof::sheet
