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
#include <vector>

#include "fogproof/base/error.hpp"
#include "registration/film_grain.hpp"
#include "registration/grey_image.hpp"
#include "registration/placing.hpp"
#include "support/drawn_exposure.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::blurred;
using registration::FramePart;
using registration::grain_shown;
using registration::GrainShare;
using registration::GrainShown;
using registration::is_other_grain;
using registration::is_own_grain;
using registration::placed_frame;
using registration::ScanNoise;
using registration::SeenFrame;

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

TEST(FilmGrain, IsAskedForOnAScanThatIsCutToTheFrame) {
    const ReflectionImage print = print_of(exposure(1));
    NegativeView own = scanned_without_clear_film(exposure(1), kScannerNoise),
                 other = scanned_without_clear_film(exposure(2), kScannerNoise);
    own.scan_pixels = other.scan_pixels = 4 * kFilmWide;
    EXPECT_NO_THROW((void)placed_frame(print, own, "print"));
    EXPECT_THROW((void)placed_frame(print, other, "print"), Error);
}

TEST(FilmGrain, IsToldFromNoiseByItsNeighboursWhereNothingElseTellsNoise) {
    // A lens has blurred grain over neighbouring pixels, which do not share the scan's noise. Of so few
    // pixels all of the detail could be noise otherwise.
    const GreyImage film = exposure(1);
    const ReflectionImage print = print_of(film);
    EXPECT_TRUE(placed_frame(print, scanned_without_clear_film(film, kScannerNoise), "print").is_own_grain);
    EXPECT_THROW((void)placed_frame(print, scanned_without_clear_film(exposure(2), kScannerNoise), "print"),
                 Error);
}

TEST(FilmGrain, OfASmoothFilmUnderANoisyScanDoesNotTell) {
    // Far more noise than grain, as ten thousand electrons have it in a dense sky, and no clear film to show
    // how much: either exposure is read.
    constexpr double kSmooth = 0.001, kNoisy = 0.0032;
    const ReflectionImage print = print_of(exposure(1, kSmooth));
    for (const unsigned seed : {1u, 2u})
        EXPECT_FALSE(placed_frame(print, scanned_without_clear_film(exposure(seed, kSmooth), kNoisy), "print")
                         .is_own_grain)
            << seed;
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
        return grain_shown(print, kBlur, negative, ScanNoise{}, seen,
                           FramePart{0, 0, film.width, film.height});
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
        return grain_shown(expected, 0.1, negative, ScanNoise{}, SeenFrame{std::move(print), {}, {}, inside},
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

TEST(FilmGrain, PiecesOfAPrintAreWeighedTogether) {
    const auto shown = [](double share, double error) {
        const GrainShare all{share, error, 1};
        return GrainShown{all, all, 0.001};
    };
    const auto is_other = [](std::vector<GrainShown> pieces) { return is_other_grain(pieces, false); };
    EXPECT_TRUE(is_other({shown(0.4, 0.05)}));
    EXPECT_FALSE(is_other({shown(0.8, 0.05)}));
    // A piece that cannot tell leaves it to the other one.
    EXPECT_TRUE(is_other({shown(0.1, 0.05), shown(0.9, 0.9)}));
    EXPECT_FALSE(is_other({shown(0.9, 0.05), shown(0.2, 0.9)}));
    // More than all of it on one makes up for nothing that the other lacks.
    EXPECT_TRUE(is_other({shown(0.1, 0.05), shown(1.6, 0.05)}));
    // Two that are unsure say more together than one does.
    EXPECT_FALSE(is_other({shown(0.5, 0.2)}));
    EXPECT_TRUE(is_other({shown(0.5, 0.2), shown(0.5, 0.2)}));
}

TEST(FilmGrain, APieceThatIsBlackWhereItIsEvenTellsNothing) {
    const GrainShare missing{0.116, 0.044, 0.7}, of_black{35, 1e-6, 0.8};
    const GrainShown other{missing, missing, 3e-4}, black{of_black, {}, 1e-7};
    EXPECT_TRUE(is_other_grain(std::vector{other}, false));
    EXPECT_TRUE(is_other_grain(std::vector{other, black}, false));
    EXPECT_FALSE(is_other_grain(std::vector{black}, false));
    EXPECT_FALSE(is_own_grain(std::vector{black}, false));
}

TEST(FilmGrain, OfWhichNextToNothingIsThereIsAnothersHoweverLittleIsExpected) {
    const auto shown = [](double share) {
        const GrainShare all{share, 0.02, 0.25};
        return std::vector<GrainShown>{{all, all, 0.001}};
    };
    EXPECT_TRUE(is_other_grain(shown(0.01), true));
    EXPECT_FALSE(is_own_grain(shown(0.01), true));
    // What a JPEG has left of it.
    EXPECT_FALSE(is_other_grain(shown(0.1), true));
    EXPECT_TRUE(is_own_grain(shown(0.1), true));
    // Detail of the picture, which both exposures have.
    auto picture = shown(0.25);
    picture.front().is_grain = false;
    EXPECT_FALSE(is_other_grain(picture, true));
    EXPECT_FALSE(is_own_grain(picture, true));
}

TEST(FilmGrain, OfAPrintWhoseJpegLeftAThirdIsThatOfThisNegative) {
    // As of a print at quality 85 whose grain is a tenth of a code.
    const GrainShare left{0.35, 0.04, 0.8};
    const std::vector<GrainShown> print{{left, left, 0.1 / 255}};
    EXPECT_FALSE(is_other_grain(print, true));
    EXPECT_TRUE(is_own_grain(print, true));
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
