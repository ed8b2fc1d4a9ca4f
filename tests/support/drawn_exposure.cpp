// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/drawn_exposure.hpp"

#include <gtest/gtest.h>
#include <algorithm>
#include <cmath>
#include <random>

namespace fogproof::tests {

double scene(double x, double y) {
    const double ridge = 260 + 40 * std::sin(x / 90) + 18 * std::sin(x / 23 + 1);
    if (y < ridge) return 1.0 + 0.0002 * y;
    double sum = 0;
    for (int i = 1; i <= 9; ++i)
        sum += std::sin(0.11 * i * x + 0.07 * i * i * y + i * i) *
               std::sin(0.09 * i * y - 0.05 * i * i * x + 3 * i);
    return 0.45 + 0.08 * sum;
}

GreyImage grain_of(unsigned seed, int wide, int high) {
    GreyImage image(wide, high);
    std::mt19937 random(seed);
    std::normal_distribution<float> normal(0, 1);
    for (float& value : image.values) value = normal(random);
    image = registration::blurred(image, 0.8);
    const auto spread = float(1 / (2 * std::sqrt(3.14159) * 0.8));  // of white noise of 1, so blurred
    for (float& value : image.values) value /= spread;
    return image;
}

GreyImage exposure(unsigned grain_seed, double size) {
    const GreyImage grain = grain_of(grain_seed, kFilmWide, kFilmHigh);
    GreyImage film(kFilmWide + 2 * kClearFilm, kFilmHigh + 2 * kClearFilm);
    for (int y = 0; y < kFilmHigh; ++y)
        for (int x = 0; x < kFilmWide; ++x) {
            const double density = std::max(0.0, scene(x, y));
            film.at(x + kClearFilm, y + kClearFilm) =
                float(density + size * std::sqrt(density + 0.1) * double(grain.at(x, y)));
        }
    return film;
}

NegativeView scanned(const GreyImage& film, double noise) {
    const auto view = [film, noise](int long_side) {
        EXPECT_GE(long_side, 200);
        std::mt19937 random(5);
        std::normal_distribution<double> normal(0, noise);
        // As asked or less: this negative is looked at as it was scanned.
        SmallNegative small{film.width, film.height, {}};
        for (const float density : film.values) {
            const double light = std::pow(10.0, -double(density)) + normal(random);
            small.density.push_back(NegativeDensity{-std::log10(std::max(light, 1e-4))});
        }
        return small;
    };
    const double across = double(kClearFilm) / film.width, down = double(kClearFilm) / film.height;
    const auto place_of = [width = film.width, height = film.height](double x, double y) {
        const double half = registration::half_diagonal(width, height);
        return registration::FramePlace{(x - width / 2.0) / half, (y - height / 2.0) / half};
    };
    return {view, place_of, FilmEdges{across, down, 1 - across, 1 - down}, film.width};
}

NegativeView scanned_without_clear_film(const GreyImage& film, double noise) {
    GreyImage frame(kFilmWide, kFilmHigh);
    for (int y = 0; y < kFilmHigh; ++y)
        for (int x = 0; x < kFilmWide; ++x) frame.at(x, y) = film.at(x + kClearFilm, y + kClearFilm);
    NegativeView view = scanned(frame, noise);
    view.edges = {};
    view.scan_pixels = kFilmWide;
    return view;
}

ReflectionImage print_of(const GreyImage& film) {
    GreyImage light(kFilmWide + 2 * kGlass, kFilmHigh + 2 * kGlass);
    for (int y = 0; y < light.height; ++y)
        for (int x = 0; x < light.width; ++x) {
            const int u = x - kGlass, v = y - kGlass;
            const bool is_picture = u >= 0 && v >= 0 && u < kFilmWide && v < kFilmHigh,
                       is_border = u >= -20 && v >= -20 && u < kFilmWide + 20 && v < kFilmHigh + 20;
            const double density =
                is_picture
                    ? 0.08 +
                          1.7 / (1 + std::exp(4.5 * (double(film.at(u + kClearFilm, v + kClearFilm)) - 0.75)))
                : is_border ? 0.08
                            : 1.6;
            light.at(x, y) = float(std::pow(10.0, -density));
        }
    light = registration::blurred(light, 0.9);
    std::mt19937 random(9);
    std::normal_distribution<float> noise(0, 0.001f);
    ReflectionImage image{light.width, light.height, 1, {}, {}, false};
    for (const float value : light.values) image.light.push_back(value + noise(random));
    image.clipped.assign(image.light.size(), 0);
    return image;
}

}  // namespace fogproof::tests
