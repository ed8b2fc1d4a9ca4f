// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/film_scan.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <type_traits>

namespace fogproof::tests {

namespace {

// As a scanner stores it: what is lighter than its last code is that code.
template <class Sample>
Sample stored(double value) {
    if constexpr (std::is_integral_v<Sample>)
        value = std::clamp(value, 0.0, double(std::numeric_limits<Sample>::max()));
    return Sample(value);
}

}  // namespace

template <class Sample>
vips::VImage raster(int width, int height, int bands, const std::function<double(int, int, int)>& sample,
                    VipsInterpretation meaning) {
    vips_ready();
    std::vector<Sample> samples;
    samples.reserve(std::size_t(width) * std::size_t(height) * std::size_t(bands));
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (int band = 0; band < bands; ++band) samples.push_back(stored<Sample>(sample(x, y, band)));
    const VipsBandFormat format = std::is_same_v<Sample, float>           ? VIPS_FORMAT_FLOAT
                                  : std::is_same_v<Sample, std::uint16_t> ? VIPS_FORMAT_USHORT
                                                                          : VIPS_FORMAT_UCHAR;
    const vips::VImage image(vips_image_new_from_memory_copy(samples.data(), samples.size() * sizeof(Sample),
                                                             width, height, bands, format));
    return image.copy(vips::VImage::option()->set("interpretation", meaning));
}
template vips::VImage raster<std::uint8_t>(int, int, int, const std::function<double(int, int, int)>&,
                                           VipsInterpretation);
template vips::VImage raster<std::uint16_t>(int, int, int, const std::function<double(int, int, int)>&,
                                            VipsInterpretation);
template vips::VImage raster<float>(int, int, int, const std::function<double(int, int, int)>&,
                                    VipsInterpretation);

TestFolder::TestFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "fogproof-test-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
}

TestFolder::~TestFolder() {
    std::filesystem::remove_all(path_);
}

double FilmScan::picture(double x, double y) const {
    return clear + picture_law((x - left) / (right - left), (y - top) / (bottom - top));
}

double FilmScan::film(double x, double y) const {
    if (x >= left && x < right && y >= top && y < bottom) return picture(x, y);
    const double apart = 60, span = right - left + apart;
    if (neighbours && y >= top && y < bottom && (x < left - apart || x >= right + apart))
        return picture(x < left ? x + span : x - span, y);
    // Still film of 35 mm with a 24 mm frame: perforations 2.8 mm across and 2 mm along the film,
    // every 4.75 mm, 25.4 mm between the rows (ISO 1007, from memory).
    const double mm = (bottom - top) / 24, row = (25.4 / 2 + 1.4 - 12) * mm;
    const bool in_row = std::abs(y - (top - row)) < 1.4 * mm || std::abs(y - (bottom + row)) < 1.4 * mm;
    if (perforations && in_row && std::fmod(x + 475 * mm, 4.75 * mm) < 2 * mm) return 0;
    return clear;
}

double FilmScan::density(double x, double y) const {
    if (x < holder || y < holder || x >= width - holder || y >= height - holder) return holder_density;
    const double turn = -degrees * std::numbers::pi / 180, middle_x = (left + right) / 2,
                 middle_y = (top + bottom) / 2, dx = x - middle_x, dy = y - middle_y;
    return film(middle_x + dx * std::cos(turn) - dy * std::sin(turn),
                middle_y + dx * std::sin(turn) + dy * std::cos(turn));
}

vips::VImage FilmScan::drawn() const {
    std::mt19937 random(11);
    std::normal_distribution<double> noise(0, grain);
    std::vector<std::pair<double, double>> specks;
    for (int i = 0; dust && i < 40; ++i)
        specks.emplace_back(random() % unsigned(width), random() % unsigned(height));
    return raster<std::uint16_t>(
        width, height, 1,
        [&](int x, int y, int) {
            double value = density(x + 0.5, y + 0.5) + noise(random);
            for (const auto& [sx, sy] : specks)
                if (std::hypot(x - sx, y - sy) < 4) value += 0.8;
            return std::lround(60000 * std::pow(10.0, -std::max(value, -0.03)));
        },
        VIPS_INTERPRETATION_GREY16);
}

}  // namespace fogproof::tests
