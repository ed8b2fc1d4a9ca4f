// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/strip_scan.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "support/film_scan.hpp"

namespace fogproof::tests {

std::vector<double> printed_wedge(int steps, double increment, double white, double black, double steep,
                                  double middle) {
    std::vector<double> densities;
    for (int i = 0; i < steps; ++i) {
        const double wedge = 0.05 + increment * i;
        densities.push_back(white + (black - white) / (1 + std::exp(steep * (wedge - middle))));
    }
    return densities;
}

double DrawnStrip::density(double px, double py, double otherwise) const {
    const double turn = degrees * std::numbers::pi / 180, dx = px - x, dy = py - y;
    const double u = dx * std::cos(turn) + dy * std::sin(turn) + length / 2,
                 v = dy * std::cos(turn) - dx * std::sin(turn) + width / 2;
    if (u < -margin || v < -margin || u >= length + margin || v >= width + margin) return otherwise;
    if (u < 0 || v < 0 || u >= length || v >= width) return margin_density;
    const double step = densities[step_at(u)];
    return v < width / 2 ? step : white + bleached * (step - white);
}

std::size_t DrawnStrip::step_at(double u) const {
    if (lengths.empty())
        return std::min(densities.size() - 1, std::size_t(u / length * double(densities.size())));
    double sum = 0, reached = 0;
    for (const double each : lengths) sum += each;
    for (std::size_t i = 0; i < lengths.size(); ++i)
        if ((reached += lengths[i]) * length >= u * sum) return i;
    return lengths.size() - 1;
}

double StripScan::density(double x, double y) const {
    double value = lid;
    for (const auto& patch : patches)
        if (x >= patch.at.left && y >= patch.at.top && x < patch.at.left + patch.at.width &&
            y < patch.at.top + patch.at.height)
            value = patch.density;
    for (const auto& strip : strips) value = strip.density(x, y, value);
    return value;
}

vips::VImage StripScan::light() const {
    std::mt19937 random(seed);
    std::normal_distribution<double> grain(0, noise);
    std::uniform_real_distribution<double> unit(0, 1);
    std::vector<std::array<double, 4>> specks;
    for (int i = 0; i < dust; ++i)
        specks.push_back({unit(random) * width, unit(random) * height, 1 + 3 * unit(random),
                          unit(random) < 0.5 ? 0.02 : 0.8});
    const double reach = std::abs(std::cos(fall_towards)) * width + std::abs(std::sin(fall_towards)) * height;
    std::vector<float> light(std::size_t(width) * std::size_t(height));
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            double sum = 0;
            for (const double across : {0.25, 0.75})
                for (const double down : {0.25, 0.75}) sum += std::pow(10.0, -density(x + across, y + down));
            const double along =
                ((x - width / 2.0) * std::cos(fall_towards) + (y - height / 2.0) * std::sin(fall_towards)) /
                reach;
            light[std::size_t(y) * std::size_t(width) + std::size_t(x)] =
                float(full_scale * (1 - fall_off * (along + 0.5)) * sum / 4);
        }
    for (const auto& [sx, sy, radius, shade] : specks)
        for (int y = std::max(0, int(sy - radius)); y < std::min(height, int(sy + radius) + 1); ++y)
            for (int x = std::max(0, int(sx - radius)); x < std::min(width, int(sx + radius) + 1); ++x)
                if (std::hypot(x - sx, y - sy) <= radius)
                    light[std::size_t(y) * std::size_t(width) + std::size_t(x)] = float(shade);
    vips_ready();
    const vips::VImage sharp(vips_image_new_from_memory_copy(light.data(), light.size() * sizeof(float),
                                                             width, height, 1, VIPS_FORMAT_FLOAT));
    // The lens of a flatbed spreads an edge over about two pixels.
    const vips::VImage soft = sharp.gaussblur(0.8).copy_memory();
    const auto* from = static_cast<const float*>(soft.data());
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = float(from[i] + stray + grain(random));
    return vips::VImage(vips_image_new_from_memory_copy(light.data(), light.size() * sizeof(float), width,
                                                        height, 1, VIPS_FORMAT_FLOAT));
}

vips::VImage in_linear_codes(const vips::VImage& light) {
    return ((light * 65535.0 + 0.5).cast(VIPS_FORMAT_USHORT))
        .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_GREY16));
}

vips::VImage in_srgb_codes(const vips::VImage& light, int bands) {
    const vips::VImage seen = light.copy_memory();
    const auto* from = static_cast<const float*>(seen.data());
    const auto width = std::size_t(seen.width());
    return raster<std::uint8_t>(
        seen.width(), seen.height(), bands,
        [&](int x, int y, int) {
            const double v = std::clamp(double(from[std::size_t(y) * width + std::size_t(x)]), 0.0, 1.0);
            return std::floor(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055) +
                              0.5);
        },
        bands == 3 ? VIPS_INTERPRETATION_sRGB : VIPS_INTERPRETATION_B_W);
}

vips::VImage StripScan::linear() const {
    return in_linear_codes(light());
}

vips::VImage StripScan::srgb() const {
    return in_srgb_codes(light(), 3);
}

}  // namespace fogproof::tests
