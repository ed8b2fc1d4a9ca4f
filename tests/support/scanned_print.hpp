// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An invented negative and drawn flatbed scans of its prints: turned, tapered, blurred, dusty, cut in two.
// The way from the frame to the scan and the print's tone curve are written down here, apart from the
// program's own.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <vector>
#include <vips/vips8>

#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {

/// Densities over clear film: slow waves, discs and boxes with edges, fine texture.
struct DrawnNegative {
    int width = 720, height = 480;
    std::vector<double> density;

    explicit DrawnNegative(unsigned seed, double thinnest = 0.1, double densest = 1.4);
    /// At a place of the frame, 0 to 1 from left and top; straight between pixels.
    [[nodiscard]] double at(double u, double v) const;
    /// 16-bit grey, linear, or whatever becomes of the transmittance (0 to 1) of a band.
    template <class Sample = std::uint16_t>
    [[nodiscard]] vips::VImage scanned(
        int bands = 1,
        const std::function<double(double, int)>& code = [](double t, int) { return 65535 * t; }) const {
        return raster<Sample>(
            width, height, bands,
            [&](int x, int y, int band) {
                const auto i = std::size_t(y) * std::size_t(width) + std::size_t(x);
                return std::floor(code(std::pow(10.0, -density[i]), band) + 0.5);
            },
            bands == 3 ? VIPS_INTERPRETATION_RGB16 : VIPS_INTERPRETATION_GREY16);
    }
};

/// A fogged paper's curve: from what lies over the paper to the density of the print.
[[nodiscard]] double fogged_curve(double over_paper);
/// The same after a bleach that takes more from thin silver.
[[nodiscard]] double bleached_curve(double over_paper);

struct DrawnPrint {
    double x = 450, y = 370;  ///< of the frame's middle on the scan
    double length = 600;      ///< of the frame's longer side on the scan
    double degrees = 0;
    double taper = 0, lens = 0, falloff_stops = 0;
    bool mirrored = false;
    double first = 0, last = 1;  ///< what is left of it from left to right
    double border = 0.05;        ///< of the frame's longer side
    double border_density = 0.22;
    std::function<double(double)> curve = fogged_curve;
    /// Stops of light that a hand added at a place of the frame, 0 to 1 from left and top.
    std::function<double(double, double)> worked = [](double, double) { return 0.0; };

    /// Where a place of the frame, 0 to 1 from left and top, lies on the scan.
    [[nodiscard]] std::array<double, 2> on_scan(double u, double v) const;
    [[nodiscard]] std::array<std::array<double, 2>, 4> corners() const {
        return {on_scan(0, 0), on_scan(1, 0), on_scan(1, 1), on_scan(0, 1)};
    }
    /// The other way.
    [[nodiscard]] std::array<double, 2> in_frame(double sx, double sy) const;
    /// Density at a place of the scan, or `otherwise` beside the paper.
    [[nodiscard]] double density(const DrawnNegative& negative, double sx, double sy, double otherwise) const;

  private:
    static constexpr double kCorner = 0.25 + 0.25 / 2.25;  // squared distance of a corner from the middle
};

struct PrintScan {
    int width = 900, height = 740;
    double lid = 0.06, blur = 1.0, noise = 0.003;
    int dust = 40;
    unsigned seed = 5;
    std::vector<DrawnPrint> prints{};
    std::vector<DrawnPatch> patches{};

    /// Linear light, one float band.
    [[nodiscard]] vips::VImage light(const DrawnNegative& negative) const;
    /// 16-bit grey, linear.
    [[nodiscard]] vips::VImage linear(const DrawnNegative& negative) const;
    /// 8-bit grey in the tone curve of sRGB, IEC 61966-2-1.
    [[nodiscard]] vips::VImage srgb(const DrawnNegative& negative) const;
};

}  // namespace fogproof::tests
