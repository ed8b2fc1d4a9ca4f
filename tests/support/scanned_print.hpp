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
#include <numbers>
#include <random>
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

    explicit DrawnNegative(unsigned seed, double thinnest = 0.1, double densest = 1.4) {
        std::mt19937 random(seed);
        std::uniform_real_distribution<double> unit(0, 1);
        std::vector<std::array<double, 4>> waves, shapes;
        for (int i = 0; i < 24; ++i) {
            const double cycles = 1 + 40 * std::pow(unit(random), 2), turn = 6.28 * unit(random);
            waves.push_back({cycles * std::cos(turn), cycles * std::sin(turn), 6.28 * unit(random),
                             0.5 / std::pow(cycles, 0.9)});
        }
        for (int i = 0; i < 40; ++i)
            shapes.push_back(
                {1.5 * unit(random), unit(random), 0.02 + 0.1 * unit(random), unit(random) - 0.5});
        double low = 1e9, high = -1e9;
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x) {
                const double u = (x + 0.5) / height, v = (y + 0.5) / height;
                double value = 0;
                for (const auto& [across, down, phase, size] : waves)
                    value += size * std::sin(6.28 * (across * u + down * v) + phase);
                for (std::size_t i = 0; i < shapes.size(); ++i) {
                    const auto& [sx, sy, size, step] = shapes[i];
                    const double away = i % 2 == 0 ? std::hypot(u - sx, v - sy)
                                                   : std::max(std::abs(u - sx), std::abs(v - sy));
                    value += step / (1 + std::exp((away - size) * 700));
                }
                density.push_back(value);
                low = std::min(low, value), high = std::max(high, value);
            }
        for (double& value : density) value = thinnest + (densest - thinnest) * (value - low) / (high - low);
    }
    /// At a place of the frame, 0 to 1 from left and top; straight between pixels.
    [[nodiscard]] double at(double u, double v) const {
        const double x = std::clamp(u * width - 0.5, 0.0, width - 1.001),
                     y = std::clamp(v * height - 0.5, 0.0, height - 1.001);
        const auto i = std::size_t(y) * std::size_t(width) + std::size_t(x);
        const double a = x - std::floor(x), b = y - std::floor(y);
        return (1 - b) * ((1 - a) * density[i] + a * density[i + 1]) +
               b * ((1 - a) * density[i + std::size_t(width)] + a * density[i + std::size_t(width) + 1]);
    }
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
inline double fogged_curve(double over_paper) {
    return 0.22 + 1.4 / (1 + std::pow(10.0, 2.2 * (over_paper - 0.75)));
}
/// The same after a bleach that takes more from thin silver.
inline double bleached_curve(double over_paper) {
    const double silver = fogged_curve(over_paper) - 0.1;
    return 0.1 + silver * silver / (silver + 0.15);
}

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
    [[nodiscard]] std::array<double, 2> on_scan(double u, double v) const {
        double a = u - 0.5, b = (v - 0.5) / 1.5;  // in long sides, the frame being 3 : 2
        if (mirrored) a = -a;
        const double bent = 1 + lens * (a * a + b * b) / kCorner;
        a *= bent, b *= bent;
        const double nearer = 1 + taper * (a + b / 2), turn = degrees * std::numbers::pi / 180;
        a *= length / nearer, b *= length / nearer;
        return {x + a * std::cos(turn) - b * std::sin(turn), y + a * std::sin(turn) + b * std::cos(turn)};
    }
    [[nodiscard]] std::array<std::array<double, 2>, 4> corners() const {
        return {on_scan(0, 0), on_scan(1, 0), on_scan(1, 1), on_scan(0, 1)};
    }
    /// The other way.
    [[nodiscard]] std::array<double, 2> in_frame(double sx, double sy) const {
        const double turn = degrees * std::numbers::pi / 180, dx = (sx - x) / length, dy = (sy - y) / length;
        const double p = dx * std::cos(turn) + dy * std::sin(turn),
                     q = dy * std::cos(turn) - dx * std::sin(turn);
        // p = a / (1 + taper (a + b / 2)), so a = p n, b = q n with n = 1 / (1 - taper (p + q / 2)).
        const double nearer = 1 / (1 - taper * (p + q / 2));
        const double bent_a = p * nearer, bent_b = q * nearer;
        double a = bent_a, b = bent_b;
        for (int i = 0; i < 6; ++i) {
            const double bent = 1 + lens * (a * a + b * b) / kCorner;
            a = bent_a / bent, b = bent_b / bent;
        }
        return {0.5 + (mirrored ? -a : a), 0.5 + 1.5 * b};
    }
    /// Density at a place of the scan, or `otherwise` beside the paper.
    [[nodiscard]] double density(const DrawnNegative& negative, double sx, double sy,
                                 double otherwise) const {
        const auto [u, v] = in_frame(sx, sy);
        const double left = first > 0 ? first : -border, right = last < 1 ? last : 1 + border;
        if (u < left || u > right || v < -1.5 * border || v > 1 + 1.5 * border) return otherwise;
        if (u < 0 || u > 1 || v < 0 || v > 1) return border_density;
        const double a = u - 0.5, b = (v - 0.5) / 1.5;
        return curve(negative.at(u, v) +
                     std::log10(2.0) * (falloff_stops * (a * a + b * b) / kCorner - worked(u, v)));
    }

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
    [[nodiscard]] vips::VImage light(const DrawnNegative& negative) const {
        std::mt19937 random(seed);
        std::normal_distribution<double> grain(0, noise);
        std::uniform_real_distribution<double> unit(0, 1);
        std::vector<float> light;
        light.reserve(std::size_t(width) * std::size_t(height));
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x) {
                double here = lid;
                for (const auto& patch : patches)
                    if (x >= patch.at.left && y >= patch.at.top && x < patch.at.left + patch.at.width &&
                        y < patch.at.top + patch.at.height)
                        here = patch.density;
                for (const auto& print : prints) here = print.density(negative, x + 0.5, y + 0.5, here);
                light.push_back(float(0.95 * std::pow(10.0, -here)));
            }
        for (int i = 0; i < dust; ++i) {
            const int sx = int(unit(random) * (width - 5)), sy = int(unit(random) * (height - 5));
            for (int y = sy; y < sy + 3; ++y)
                for (int x = sx; x < sx + 3; ++x)
                    light[std::size_t(y) * std::size_t(width) + std::size_t(x)] = 0.85f;
        }
        vips_ready();
        const vips::VImage sharp(vips_image_new_from_memory_copy(light.data(), light.size() * sizeof(float),
                                                                 width, height, 1, VIPS_FORMAT_FLOAT));
        const vips::VImage soft = sharp.gaussblur(blur).copy_memory();
        const auto* from = static_cast<const float*>(soft.data());
        for (std::size_t i = 0; i < light.size(); ++i) light[i] = float(from[i] * (1 + grain(random)));
        return vips::VImage(vips_image_new_from_memory_copy(light.data(), light.size() * sizeof(float), width,
                                                            height, 1, VIPS_FORMAT_FLOAT));
    }
    /// 16-bit grey, linear.
    [[nodiscard]] vips::VImage linear(const DrawnNegative& negative) const {
        return ((light(negative) * 65535.0 + 0.5).cast(VIPS_FORMAT_USHORT))
            .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_GREY16));
    }
    /// 8-bit grey in the tone curve of sRGB, IEC 61966-2-1.
    [[nodiscard]] vips::VImage srgb(const DrawnNegative& negative) const {
        const vips::VImage seen = light(negative).copy_memory();
        const auto* from = static_cast<const float*>(seen.data());
        return raster<std::uint8_t>(
            width, height, 1,
            [&](int x, int y, int) {
                const double v =
                    std::clamp(double(from[std::size_t(y) * std::size_t(width) + std::size_t(x)]), 0.0, 1.0);
                return std::floor(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055) +
                                  0.5);
            },
            VIPS_INTERPRETATION_B_W);
    }
};

}  // namespace fogproof::tests
