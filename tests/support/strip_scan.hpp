// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Drawn flatbed scans for tests: strips of known densities on a lid, turned, unevenly lit, noisy and dusty.
#pragma once

#include <string>
#include <vector>
#include <vips/vips8>

#include "base/region.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// Densities of a printed step wedge from dark to light: a logistic curve in the wedge's density. `steep` per
/// density; a long wedge merges into black and white at its ends.
[[nodiscard]] std::vector<double> printed_wedge(int steps, double increment, double white, double black,
                                                double steep = 3.0, double middle = 1.55);

struct DrawnStrip {
    double x = 600, y = 250;            ///< its middle
    double degrees = 0;                 ///< of its length against the lines of the scan
    double length = 1000, width = 160;  ///< of the steps
    std::vector<double> densities{};    ///< along its length
    std::vector<double> lengths{};      ///< relative; empty: all alike
    double margin = 0;                  ///< paper around the steps
    double margin_density = 0.1;
    double bleached = 1;  ///< the second half of its width keeps this share of density above `white`
    double white = 0.1;

    [[nodiscard]] double density(double px, double py, double otherwise) const;
    [[nodiscard]] std::size_t step_at(double u) const;
};

/// One float band of light as a flatbed codes it: 16 bits, linear, or 8 bits in the tone curve of sRGB, IEC
/// 61966-2-1, the same in each band.
[[nodiscard]] vips::VImage in_linear_codes(const vips::VImage& light);
[[nodiscard]] vips::VImage in_srgb_codes(const vips::VImage& light, int bands);

struct DrawnPatch {
    Region at;
    double density;
};

struct StripScan {
    int width = 1200, height = 500;
    double lid = 0.06;          ///< density
    double full_scale = 0.93;   ///< what the perfect diffuser gives, of full scale
    double fall_off = 0.10;     ///< share of the light lost from one end of the scan to the other
    double fall_towards = 0.6;  ///< direction of that, radians
    double noise = 0.004;       ///< of full scale, standard deviation a pixel
    double stray = 0;           ///< light added everywhere, of full scale
    int dust = 60;
    unsigned seed = 3;
    std::vector<DrawnStrip> strips{};
    std::vector<DrawnPatch> patches{};

    [[nodiscard]] double density(double x, double y) const;
    /// Linear light, one float band, as the scanner's sensor sees it.
    [[nodiscard]] vips::VImage light() const;
    /// 16-bit grey, linear.
    [[nodiscard]] vips::VImage linear() const;
    /// 8-bit RGB in sRGB, IEC 61966-2-1.
    [[nodiscard]] vips::VImage srgb() const;
};

}  // namespace fogproof::tests
