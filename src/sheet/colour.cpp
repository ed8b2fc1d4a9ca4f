// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/sheet/colour.hpp"

#include <cmath>

namespace fogproof::sheet {
namespace {

struct Weights {
    Spectrum x, y, z;  // D50, summing to the white
    Spectrum visual;   // illuminant A and V(lambda), summing to 1
};

// CIE 15: S(lambda) = 100 (560/lambda)^5 (e^(1.435e7 / (2848 * 560)) - 1) / (e^(1.435e7 / (2848 lambda)) -
// 1).
double illuminant_a(double wavelength_nm) {
    const auto planck = [](double nm) { return std::expm1(1.435e7 / (2848.0 * nm)); };
    return 100.0 * std::pow(560.0 / wavelength_nm, 5) * planck(560.0) / planck(wavelength_nm);
}

Spectrum weights_of(const Spectrum& observer, const Spectrum& light, double sum_wanted) {
    Spectrum weight{};
    double sum = 0.0;
    for (std::size_t i = 0; i < kBands; ++i) sum += weight[i] = observer[i] * light[i];
    for (double& w : weight) w *= sum_wanted / sum;
    return weight;
}

const Weights& weights() {
    static const Weights all = [] {
        Spectrum a{};
        for (std::size_t i = 0; i < kBands; ++i) a[i] = illuminant_a(band_nm(i));
        return Weights{weights_of(cie_x(), cie_d50(), kD50.x), weights_of(cie_y(), cie_d50(), kD50.y),
                       weights_of(cie_z(), cie_d50(), kD50.z), weights_of(cie_y(), a, 1.0)};
    }();
    return all;
}

double weighted(const Spectrum& reflectance, const Spectrum& weight) {
    double sum = 0.0;
    for (std::size_t i = 0; i < kBands; ++i) sum += reflectance[i] * weight[i];
    return sum;
}

// The two constants of CIE 15 as exact fractions.
constexpr double kEpsilon = 216.0 / 24389.0, kKappa = 24389.0 / 27.0;

double f(double t) {
    return t > kEpsilon ? std::cbrt(t) : (kKappa * t + 16.0) / 116.0;
}

double f_inverse(double f) {
    return f * f * f > kEpsilon ? f * f * f : (116.0 * f - 16.0) / kKappa;
}

}  // namespace

XYZ xyz_under_d50(const Spectrum& reflectance) {
    const Weights& w = weights();
    return {weighted(reflectance, w.x), weighted(reflectance, w.y), weighted(reflectance, w.z)};
}

Lab lab(const XYZ& colour, const XYZ& white) {
    const double fx = f(colour.x / white.x), fy = f(colour.y / white.y), fz = f(colour.z / white.z);
    return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

XYZ xyz(const Lab& colour, const XYZ& white) {
    const double fy = (colour.l + 16.0) / 116.0;
    return {white.x * f_inverse(fy + colour.a / 500.0), white.y * f_inverse(fy),
            white.z * f_inverse(fy - colour.b / 200.0)};
}

PrintDensity visual_density(const Spectrum& reflectance) {
    return {-std::log10(weighted(reflectance, weights().visual))};
}

double lightness(PrintDensity density) {
    return 116.0 * f(std::pow(10.0, -density.value)) - 16.0;
}

double darkened(double lightness, PrintDensity by) {
    return 116.0 * f(f_inverse((lightness + 16.0) / 116.0) * std::pow(10.0, -by.value)) - 16.0;
}

}  // namespace fogproof::sheet
