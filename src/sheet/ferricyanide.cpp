// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The yellow of a ferricyanide bath: Beer's law over two Gaussian bands, at 420 nm and at 303 nm.
#include <cmath>

#include "fogproof/sheet/sheet.hpp"

namespace fogproof::sheet {
namespace {

constexpr double kMolarMass_g = 329.248;  // K3Fe(CN)6, from standard atomic weights

// Heights from memory of the literature: 1000 to 1040 at 420 nm, about 1600 near 303 nm. Widths are
// judgement, set so that some tens are left at 480 to 500 nm and next to nothing past 520 nm.
double band(double wavelength_nm, double peak_nm, double height, double width_nm) {
    const double u = (wavelength_nm - peak_nm) / width_nm;
    return height * std::exp(-u * u / 2.0);
}

}  // namespace

double ferricyanide_absorptivity(double wavelength_nm) {
    return band(wavelength_nm, 420.0, 1020.0, 27.0) + band(wavelength_nm, 303.0, 1600.0, 25.0);
}

double ferricyanide_absorbance(double wavelength_nm, double grams_per_litre, double path_cm) {
    return ferricyanide_absorptivity(wavelength_nm) * grams_per_litre / kMolarMass_g * path_cm;
}

}  // namespace fogproof::sheet
