// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/scanned_print.hpp"

#include <cmath>
#include <numbers>
#include <random>

#include "support/film_scan.hpp"

namespace fogproof::tests {

double fogged_curve(double over_paper) {
    return 0.22 + 1.4 / (1 + std::pow(10.0, 2.2 * (over_paper - 0.75)));
}

double bleached_curve(double over_paper) {
    const double silver = fogged_curve(over_paper) - 0.1;
    return 0.1 + silver * silver / (silver + 0.15);
}

DrawnNegative::DrawnNegative(unsigned seed, double thinnest, double densest) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> unit(0, 1);
    std::vector<std::array<double, 4>> waves, shapes;
    for (int i = 0; i < 24; ++i) {
        const double cycles = 1 + 40 * std::pow(unit(random), 2), turn = 6.28 * unit(random);
        waves.push_back({cycles * std::cos(turn), cycles * std::sin(turn), 6.28 * unit(random),
                         0.5 / std::pow(cycles, 0.9)});
    }
    for (int i = 0; i < 40; ++i)
        shapes.push_back({1.5 * unit(random), unit(random), 0.02 + 0.1 * unit(random), unit(random) - 0.5});
    double low = 1e9, high = -1e9;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const double u = (x + 0.5) / height, v = (y + 0.5) / height;
            double value = 0;
            for (const auto& [across, down, phase, size] : waves)
                value += size * std::sin(6.28 * (across * u + down * v) + phase);
            for (std::size_t i = 0; i < shapes.size(); ++i) {
                const auto& [sx, sy, size, step] = shapes[i];
                const double away =
                    i % 2 == 0 ? std::hypot(u - sx, v - sy) : std::max(std::abs(u - sx), std::abs(v - sy));
                value += step / (1 + std::exp((away - size) * 700));
            }
            density.push_back(value);
            low = std::min(low, value), high = std::max(high, value);
        }
    for (double& value : density) value = thinnest + (densest - thinnest) * (value - low) / (high - low);
}

double DrawnNegative::at(double u, double v) const {
    const double x = std::clamp(u * width - 0.5, 0.0, width - 1.001),
                 y = std::clamp(v * height - 0.5, 0.0, height - 1.001);
    const auto i = std::size_t(y) * std::size_t(width) + std::size_t(x);
    const double a = x - std::floor(x), b = y - std::floor(y);
    return (1 - b) * ((1 - a) * density[i] + a * density[i + 1]) +
           b * ((1 - a) * density[i + std::size_t(width)] + a * density[i + std::size_t(width) + 1]);
}

std::array<double, 2> DrawnPrint::on_scan(double u, double v) const {
    double a = u - 0.5, b = (v - 0.5) / 1.5;  // in long sides, the frame being 3 : 2
    if (mirrored) a = -a;
    const double bent = 1 + lens * (a * a + b * b) / kCorner;
    a *= bent, b *= bent;
    const double nearer = 1 + taper * (a + b / 2), turn = degrees * std::numbers::pi / 180;
    a *= length / nearer, b *= length / nearer;
    return {x + a * std::cos(turn) - b * std::sin(turn), y + a * std::sin(turn) + b * std::cos(turn)};
}

std::array<double, 2> DrawnPrint::in_frame(double sx, double sy) const {
    const double turn = degrees * std::numbers::pi / 180, dx = (sx - x) / length, dy = (sy - y) / length;
    const double p = dx * std::cos(turn) + dy * std::sin(turn), q = dy * std::cos(turn) - dx * std::sin(turn);
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

double DrawnPrint::density(const DrawnNegative& negative, double sx, double sy, double otherwise) const {
    const auto [u, v] = in_frame(sx, sy);
    const double left = first > 0 ? first : -border, right = last < 1 ? last : 1 + border;
    if (u < left || u > right || v < -1.5 * border || v > 1 + 1.5 * border) return otherwise;
    if (u < 0 || u > 1 || v < 0 || v > 1) return border_density;
    const double a = u - 0.5, b = (v - 0.5) / 1.5;
    return curve(negative.at(u, v) +
                 std::log10(2.0) * (falloff_stops * (a * a + b * b) / kCorner - worked(u, v)));
}

vips::VImage PrintScan::light(const DrawnNegative& negative) const {
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

vips::VImage PrintScan::linear(const DrawnNegative& negative) const {
    return in_linear_codes(light(negative));
}

vips::VImage PrintScan::srgb(const DrawnNegative& negative) const {
    return in_srgb_codes(light(negative), 1);
}

}  // namespace fogproof::tests
