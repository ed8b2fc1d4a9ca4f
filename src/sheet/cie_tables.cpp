// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Colour matching functions of the CIE 1931 2 degree observer and relative power of D50 (CIE 15), every 10 nm
// from 380 to 730 nm. Values as printed in the data files of colour-science/colour (BSD-3-Clause).
#include "fogproof/sheet/colour.hpp"

namespace fogproof::sheet {
namespace {

// clang-format off
constexpr Spectrum kX{
    0.001368, 0.004243, 0.01431, 0.04351, 0.13438, 0.2839, 0.34828, 0.3362, 0.2908, 0.19536,
    0.09564, 0.03201, 0.0049, 0.0093, 0.06327, 0.1655, 0.2904, 0.4334499, 0.5945, 0.7621, 0.9163,
    1.0263, 1.0622, 1.0026, 0.8544499, 0.6424, 0.4479, 0.2835, 0.1649, 0.0874, 0.04677, 0.0227,
    0.01135916, 0.005790346, 0.002899327, 0.001439971};
constexpr Spectrum kY{
    3.9e-05, 0.00012, 0.000396, 0.00121, 0.004, 0.0116, 0.023, 0.038, 0.06, 0.09098, 0.13902,
    0.20802, 0.323, 0.503, 0.71, 0.862, 0.954, 0.9949501, 0.995, 0.952, 0.87, 0.757, 0.631, 0.503,
    0.381, 0.265, 0.175, 0.107, 0.061, 0.032, 0.017, 0.00821, 0.004102, 0.002091, 0.001047, 0.00052};
constexpr Spectrum kZ{
    0.006450001, 0.02005001, 0.06785001, 0.2074, 0.6456, 1.3856, 1.74706, 1.77211, 1.6692, 1.28764,
    0.8129501, 0.46518, 0.272, 0.1582, 0.07824999, 0.04216, 0.0203, 0.008749999, 0.0039, 0.0021,
    0.001650001, 0.0011, 0.0008, 0.00034, 0.00019, 4.999999e-05, 2e-05, 0, 0, 0, 0, 0, 0, 0, 0, 0};
constexpr Spectrum kD50Power{
    24.488, 29.871, 49.308, 56.513, 60.034, 57.818, 74.825, 87.247, 90.612, 91.368, 95.109, 91.963,
    95.724, 96.613, 97.129, 102.099, 100.755, 102.317, 100.000, 97.735, 98.918, 93.499, 97.688,
    99.269, 99.042, 95.722, 98.857, 95.667, 98.190, 103.003, 99.133, 87.381, 91.604, 92.889, 76.854,
    86.511};
// clang-format on

}  // namespace

const Spectrum& cie_x() {
    return kX;
}
const Spectrum& cie_y() {
    return kY;
}
const Spectrum& cie_z() {
    return kZ;
}
const Spectrum& cie_d50() {
    return kD50Power;
}

}  // namespace fogproof::sheet
