// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "sheet/base_spectrum.hpp"

#include <array>
#include <cmath>
#include <string>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "sheet/optics.hpp"

namespace fogproof::sheet {
namespace {

using Triple = std::array<double, 3>;

// A base may reflect a little more than the perfect diffuser where it fluoresces.
constexpr double kBrightestBase = 1.05;
// Far below anything a densitometer or colorimeter shows.
constexpr double kSettled = 1e-11;

Spectrum reflectance_of(const Triple& d) {
    Spectrum spectrum{};
    for (std::size_t i = 0; i < kBands; ++i) {
        const double u = (band_nm(i) - 550.0) / 150.0;
        spectrum[i] = std::pow(10.0, -(d[0] + d[1] * u + d[2] * u * u));
    }
    return spectrum;
}

Triple shown(const Triple& d) {
    const Spectrum spectrum = reflectance_of(d);
    const Lab colour = lab(xyz_under_d50(spectrum));
    return {visual_density(spectrum).value, colour.a, colour.b};
}

double determinant(const Triple& a, const Triple& b, const Triple& c) {
    return a[0] * (b[1] * c[2] - b[2] * c[1]) - b[0] * (a[1] * c[2] - a[2] * c[1]) +
           c[0] * (a[1] * b[2] - a[2] * b[1]);
}

[[noreturn]] void refuse(const SheetConstants& c, const std::string& why) {
    throw Error(Fault::config, "paper white",
                "density " + decimal(c.white_density, 3) + ", a* " + decimal(c.white_a, 2) + ", b* " +
                    decimal(c.white_b, 2) + " with surface light " + decimal(c.surface, 4) + " " + why,
                "a base reflects more than 0 and at most 1.05 at every wavelength");
}

// Newton with a differenced Jacobian; the map is nearly linear over every colour a paper can have.
Triple density_terms(const SheetConstants& c) {
    const Triple wanted{c.white_density, c.white_a, c.white_b};
    Triple d{c.white_density, 0.0, 0.0};
    for (int step = 0; step < 40; ++step) {
        const Triple now = shown(d);
        const Triple miss{wanted[0] - now[0], wanted[1] - now[1], wanted[2] - now[2]};
        if (std::abs(miss[0]) + std::abs(miss[1]) + std::abs(miss[2]) < kSettled) return d;
        std::array<Triple, 3> column;
        for (std::size_t k = 0; k < 3; ++k) {
            constexpr double kNudge = 1e-6;
            Triple moved = d;
            moved[k] += kNudge;
            const Triple there = shown(moved);
            for (std::size_t i = 0; i < 3; ++i) column[k][i] = (there[i] - now[i]) / kNudge;
        }
        const double whole = determinant(column[0], column[1], column[2]);
        d[0] += determinant(miss, column[1], column[2]) / whole;
        d[1] += determinant(column[0], miss, column[2]) / whole;
        d[2] += determinant(column[0], column[1], miss) / whole;
    }
    refuse(c, "is no colour that a smooth base can have");
}

}  // namespace

Spectrum base_spectrum(const SheetConstants& c) {
    Spectrum base = reflectance_of(density_terms(c));
    for (std::size_t i = 0; i < kBands; ++i) {
        base[i] = base_behind_clear_layer(base[i] - c.surface);
        if (!(base[i] > 0.0 && base[i] <= kBrightestBase))
            refuse(c, "asks for a base of reflectance " + decimal(base[i], 3) + " at " +
                          decimal(band_nm(i), 0) + " nm");
    }
    return base;
}

}  // namespace fogproof::sheet
