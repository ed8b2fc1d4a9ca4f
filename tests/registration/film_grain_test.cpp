// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Another exposure of a scene shows the same picture in the same place, but its grain is its own: a print of
// one is placed against its negative and refused against the other. Both are drawn here, so what is true is
// known. Outside source: the variance of grain grows as density (Nutting's law, T. H. James, The Theory of
// the Photographic Process, from memory).
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

#include "fogproof/base/error.hpp"
#include "registration/film_grain.hpp"
#include "registration/grey_image.hpp"
#include "registration/placing.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::blurred;
using registration::FilmEdges;
using registration::FramePart;
using registration::grain_shown;
using registration::GrainShown;
using registration::GreyImage;
using registration::NegativeView;
using registration::placed_frame;
using registration::SeenFrame;
using scan::ReflectionImage;
using scan::SmallNegative;

constexpr int kFilmWide = 840, kFilmHigh = 600, kClearFilm = 10, kGlass = 60;

// Hills under an even sky: density of the scene on film, within its frame.
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
    image = blurred(image, 0.8);
    const auto spread = float(1 / (2 * std::sqrt(3.14159) * 0.8));  // of white noise of 1, so blurred
    for (float& value : image.values) value /= spread;
    return image;
}

// An exposure of the scene with grain of its own and clear film around it.
constexpr double kUsualGrain = 0.01;  // density, at density 1
GreyImage exposure(unsigned grain_seed, double size = kUsualGrain) {
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

// The scan of it, with noise of the scanner as a share of its full light.
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
    return {view, FilmEdges{across, down, 1 - across, 1 - down}};
}

// Its print on a flatbed: a paper's curve, a white border and a dark lid, a little blur and noise.
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
    light = blurred(light, 0.9);
    std::mt19937 random(9);
    std::normal_distribution<float> noise(0, 0.001f);
    ReflectionImage image{light.width, light.height, 1, {}, {}, false};
    for (const float value : light.values) image.light.push_back(value + noise(random));
    image.clipped.assign(image.light.size(), 0);
    return image;
}

constexpr double kScannerNoise = 0.0003;  // of full light; 20 codes of 65535

TEST(FilmGrain, APrintIsPlacedAgainstItsNegative) {
    const GreyImage film = exposure(1);
    const auto placed = placed_frame(print_of(film), scanned(film, kScannerNoise), "print");
    const auto corner = placed.corners()[2];
    EXPECT_NEAR(corner.x, kGlass + kFilmWide, 0.5);
    EXPECT_NEAR(corner.y, kGlass + kFilmHigh, 0.5);
}

TEST(FilmGrain, APrintIsRefusedAgainstAnotherExposureThatDiffersInGrainAlone) {
    try {
        (void)placed_frame(print_of(exposure(1)), scanned(exposure(2), kScannerNoise), "print");
        FAIL() << "was placed";
    } catch (const Error& fault) {
        EXPECT_NE(std::string(fault.what()).find("grain is not this negative's"), std::string::npos)
            << fault.what();
    }
}

TEST(FilmGrain, ItsSizeIsThatOnThePrint) {
    // Half the grain on film is half of it on the print, which shows all of it.
    const auto shown = [](double grain) {
        const GreyImage film = exposure(1, grain);
        SmallNegative negative{film.width, film.height, {}};
        GreyImage print(film.width, film.height);
        for (std::size_t i = 0; i < film.values.size(); ++i) {
            negative.density.push_back(NegativeDensity{double(film.values[i])});
            print.values[i] = 0.3f + 0.4f * film.values[i];
        }
        constexpr double kBlur = 0.5;
        print = blurred(print, kBlur);
        SeenFrame seen{print, {}, {}, std::vector<char>(print.values.size(), 1)};
        std::mt19937 random(9);
        std::normal_distribution<float> noise(0, 0.0003f);
        for (float& value : seen.value.values) value += noise(random);
        return grain_shown(print, kBlur, negative, 1e-6, seen, FramePart{0, 0, film.width, film.height});
    };
    const GrainShown usual = shown(kUsualGrain), fine = shown(kUsualGrain / 2);
    EXPECT_NEAR(usual.share, 1, 0.02);
    EXPECT_NEAR(usual.size / fine.size, 2, 0.1);
    EXPECT_LT(usual.size, 0.4 * kUsualGrain * 1.1);
}

TEST(FilmGrain, OfABurntSkyIsWeighedAtTheTonesItWasBurntTo) {
    // The sky's own tone has the steepest slope of the curve; burnt, it has half of that, as hills of its new
    // tone have.
    constexpr double kBurnt = 0.35, kSkyFrom = 0.95;
    const auto tone = [](double density) { return 1 / (1 + std::exp(-6 * (density - 0.95))); };
    const auto with_grain = [](unsigned grain_seed) {
        GreyImage film = exposure(grain_seed);
        for (int y = 0; y < film.height; ++y)
            for (int x = 0; x < film.width; ++x) {
                float& value = film.at(x, y);
                const double hills = scene(x - kClearFilm, y - kClearFilm);
                // Less texture and all tones, from left to right.
                if (hills < kSkyFrom) value += float(0.7 * (0.45 - hills) + 0.5 * x / film.width - 0.2);
            }
        return film;
    };
    const GreyImage film = with_grain(1);
    SmallNegative negative{film.width, film.height, {}};
    for (const float density : film.values) negative.density.push_back(NegativeDensity{double(density)});
    GreyImage expected = film;
    for (float& value : expected.values) value = float(tone(double(value)));
    const FramePart picture{kClearFilm, kClearFilm, kClearFilm + kFilmWide, kClearFilm + kFilmHigh};
    const auto shown = [&](GreyImage print) {
        std::mt19937 random(9);
        std::normal_distribution<float> noise(0, 0.0003f);
        for (int y = 0; y < film.height; ++y)
            for (int x = 0; x < film.width; ++x) {
                const bool is_sky = scene(x - kClearFilm, y - kClearFilm) > kSkyFrom;
                float& value = print.at(x, y);
                value = float(tone(double(value) - (is_sky ? kBurnt : 0))) + noise(random);
            }
        const std::vector<char> inside(print.values.size(), 1);
        return grain_shown(expected, 0.1, negative, 1e-6, SeenFrame{std::move(print), {}, {}, inside},
                           picture)
            .share;
    };
    EXPECT_NEAR(shown(film), 1, 0.1);
    EXPECT_LT(shown(with_grain(2)), 0.2);
}

TEST(FilmGrain, ANoisyScanOfTheNegativeIsToldFromAnotherExposure) {
    // The scan's noise is far stronger than grain in the even sky, and the clear film shows how strong.
    const GreyImage film = exposure(1);
    EXPECT_NO_THROW((void)placed_frame(print_of(film), scanned(film, 0.006), "print"));
}

TEST(FilmGrain, NoiseIsTakenFromTheClearFilm) {
    const GreyImage film = exposure(1);
    const NegativeView view = scanned(film, 0.004);
    const auto noise = registration::clear_film_noise(view.at(1000), view.edges);
    ASSERT_TRUE(noise);
    // Light of 1 and noise of 0.004: 0.004 / ln 10 in density.
    EXPECT_NEAR(*noise, 0.004 / std::log(10.0), 0.0001);
    EXPECT_FALSE(registration::clear_film_noise(view.at(1000), FilmEdges{})) << "there is no clear film";
}

TEST(FilmGrain, IsNotAskedForWhereTheScansCodingWipedItOut) {
    // As a strong JPEG does it: no noise in clear film, and, of the grain, no more than that squares of eight
    // pixels are a little off.
    GreyImage film = exposure(1);
    const ReflectionImage print = print_of(film);
    const GreyImage off = grain_of(3, kFilmWide / 8 + 1, kFilmHigh / 8 + 1);
    for (int y = 0; y < kFilmHigh; ++y)
        for (int x = 0; x < kFilmWide; ++x)
            film.at(x + kClearFilm, y + kClearFilm) =
                float(std::max(0.0, scene(x, y))) + 0.003f * off.at(x / 8, y / 8);
    EXPECT_NO_THROW((void)placed_frame(print, scanned(film, 0), "print"));
}

}  // namespace
}  // namespace fogproof::tests
