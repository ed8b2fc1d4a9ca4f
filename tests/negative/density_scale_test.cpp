// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Codes to densities, and the tones of a frame.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <random>

#include "fogproof/base/error.hpp"
#include "negative/density_scale.hpp"
#include "negative/tones.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kExact = 1e-12;         // closed forms in double precision
constexpr double kPrintedDigits = 5e-7;  // values quoted to six decimals

TEST(DensityScale, LinearCodesAreProportionalToTransmittance) {
    const auto light = light_of_codes(Encoding::linear, 65536);
    EXPECT_EQ(light.front(), 0.0);
    EXPECT_EQ(light.back(), 1.0);
    EXPECT_NEAR(light[13107], 0.2, kExact);  // 65535 / 5
}

// IEC 61966-2-1: linear up to 0.04045 with slope 1/12.92, then ((v + 0.055) / 1.055)^2.4. The two values are
// the formula's, computed apart from this program.
TEST(DensityScale, SrgbDecodesAsTheStandardSays) {
    EXPECT_NEAR(light_of_value(Encoding::srgb, 0.5), 0.214041, kPrintedDigits);
    const auto light = light_of_codes(Encoding::srgb, 256);
    EXPECT_NEAR(light[128], 0.215861, kPrintedDigits);
    EXPECT_NEAR(light[10], 10.0 / 255 / 12.92, kExact);
    EXPECT_EQ(light[0], 0.0);
    EXPECT_NEAR(light[255], 1.0, kExact);
}

TEST(DensityScale, EveryEncodingRisesFromDarkToFullLight) {
    for (const auto encoding : {Encoding::linear, Encoding::srgb, Encoding::gamma22, Encoding::density}) {
        const auto light = light_of_codes(encoding, 65536);
        for (std::size_t code = 1; code < light.size(); ++code)
            ASSERT_GT(light[code], light[code - 1]) << code;
        EXPECT_NEAR(light.back(), 1.0, kExact);
    }
}

TEST(DensityScale, DensityEncodingCountsDownFromFour) {
    const auto light = light_of_codes(Encoding::density, 65536);
    EXPECT_NEAR(-std::log10(light.front()), 4.0, kExact);
    EXPECT_NEAR(-std::log10(light[32768]), 4.0 * (1 - 32768.0 / 65535), kExact);
}

TEST(DensityScale, LogCodesKeepEveryLightWithinHalfAStepOfDensity) {
    const auto light = light_of_log_codes();
    ASSERT_EQ(light.size(), 65536u);
    EXPECT_EQ(light[0], 0.0);
    EXPECT_NEAR(std::log10(light[1]), kLogCodeTop - kLogCodeSpan, kExact);
    EXPECT_NEAR(std::log10(light[65535]), kLogCodeTop, kExact);
    // Half a step of 7.63e-5, and as much again as single precision rounds a code near 65535 (2^-8 of a step
    // each in two operations).
    constexpr double kHalfStep = 0.5 * kLogCodeSpan / 65534 * 1.02;
    for (double density = -0.3; density < 4.7; density += 0.000317) {
        const auto code = log_code_of_light(float(std::pow(10.0, -density)));
        ASSERT_NEAR(-std::log10(light[code]), density, kHalfStep);
    }
    EXPECT_EQ(log_code_of_light(0.0f), 0);
    EXPECT_EQ(log_code_of_light(-1.0f), 0);
    EXPECT_EQ(log_code_of_light(1e-9f), 1);
    EXPECT_EQ(log_code_of_light(5.0f), 65535);
}

TEST(DensityScale, LogCodesComeBackAsThemselves) {
    const auto light = light_of_log_codes();
    for (std::size_t code = 0; code < light.size(); ++code)
        ASSERT_EQ(log_code_of_light(float(light[code])), code);
}

// Density is log10(1/T), by definition (ISO 5-1, from memory).
TEST(DensityScale, DensityIsTheLogarithmOfOpacity) {
    const std::vector<double> light{1.0, 0.5, 0.1, 0.001, 0.0};
    const auto density = negative_densities(light, {});
    EXPECT_NEAR(density[0].value, 0.0, kExact);
    EXPECT_NEAR(density[1].value, 0.301029995663981, kExact);
    EXPECT_NEAR(density[2].value, 1.0, kExact);
    EXPECT_NEAR(density[3].value, 3.0, kExact);
    EXPECT_EQ(density[4].value, kDensestNegative);
}

TEST(DensityScale, ReferencesAreTakenOffBeforeTheLogarithm) {
    const std::vector<double> light{0.55, 0.05, 0.3, 0.02, 1.5};
    const auto density = negative_densities(light, {.clear = 0.55, .black = 0.05});
    EXPECT_NEAR(density[0].value, 0.0, kExact);
    EXPECT_EQ(density[1].value, kDensestNegative);
    EXPECT_NEAR(density[2].value, std::log10(2.0), kExact);
    EXPECT_EQ(density[3].value, kDensestNegative);
    EXPECT_EQ(density[4].value, -0.3);
}

TEST(DensityScale, ClearFilmNoBrighterThanBlackIsRefused) {
    const std::vector<double> light{0.0, 1.0};
    for (const ScanReference wrong : {ScanReference{0.1, 0.1}, ScanReference{0.1, 0.2}}) try {
            (void)negative_densities(light, wrong);
            FAIL() << "not refused";
        } catch (const Error& error) {
            EXPECT_EQ(error.fault(), Fault::data);
        }
}

TEST(VirtualFilm, RunsFromClearFilmToItsRangeAtItsSlope) {
    const VirtualFilm film{.slope = 0.6, .range = 1.1};
    const auto density = virtual_densities(std::vector<double>{0.0, 0.5, 1.0}, film);
    EXPECT_EQ(density[0].value, 0.0);
    EXPECT_NEAR(density[2].value, 1.1, kExact);
    // Local slope is that of the straight line times L / (L + L0), with L0 = 1 / (10^(1.1/0.6) - 1) = 0.0149:
    // from half light, where it is 97.1 percent, to full light, where it is 98.5.
    const double stop = density[2].value - density[1].value, straight = 0.6 * std::log10(2.0);
    EXPECT_GT(stop, 0.971 * straight);
    EXPECT_LT(stop, 0.986 * straight);
}

TEST(VirtualFilm, MoreLightNeverThinsTheNegative) {
    std::vector<double> light(2001);
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = double(i) / 2000;
    for (const VirtualFilm film : {VirtualFilm{}, VirtualFilm{0.4, 0.8}, VirtualFilm{1.2, 2.5}}) {
        const auto density = virtual_densities(light, film);
        for (std::size_t i = 1; i < density.size(); ++i) ASSERT_GT(density[i], density[i - 1]);
    }
}

TEST(VirtualFilm, ImpossibleFilmIsRefused) {
    const std::vector<double> light{0.5};
    for (const VirtualFilm film : {VirtualFilm{0, 1.1}, VirtualFilm{0.6, 0}, VirtualFilm{0.6, NAN}})
        EXPECT_THROW((void)virtual_densities(light, film), Error);
}

TEST(Tones, EveryPixelCountsOnce) {
    const std::vector<NegativeDensity> scale{{1.0}, {0.5}, {0.5}, {0.2}};
    const Tones tones(Histogram{1, 2, 3, 4}, scale);
    ASSERT_EQ(tones.all().size(), 3u);
    EXPECT_EQ(tones.all()[0].density.value, 0.2);
    EXPECT_NEAR(tones.all()[0].share, 0.4, kExact);
    EXPECT_NEAR(tones.all()[1].share, 0.5, kExact);
    EXPECT_NEAR(tones.all()[2].share, 0.1, kExact);
}

TEST(Tones, QuantilesFollowTheSortedPixels) {
    std::mt19937 random(7);
    std::vector<NegativeDensity> scale;
    for (int code = 0; code < 256; ++code) scale.push_back({3.0 - code * 0.01});
    Histogram histogram(256);
    std::vector<double> pixels;
    for (int i = 0; i < 5000; ++i) {
        const auto code = random() % 256;
        ++histogram[code];
        pixels.push_back(scale[code].value);
    }
    std::sort(pixels.begin(), pixels.end());
    const Tones tones(histogram, scale);
    for (const double share : {0.001, 0.01, 0.5, 0.9, 0.999, 1.0})
        EXPECT_EQ(tones.quantile(share).value, pixels[std::size_t(std::ceil(share * 5000)) - 1]) << share;
    EXPECT_EQ(tones.quantile(0).value, pixels.front());
}

TEST(Tones, MeanLightIsThatOfThePixels) {
    const std::vector<NegativeDensity> scale{{0.0}, {1.0}, {2.0}};
    const Tones tones(Histogram{1, 1, 2}, scale);
    EXPECT_NEAR(tones.mean_transmitted(1.0), (1 + 0.1 + 2 * 0.01) / 4, kExact);
    EXPECT_NEAR(tones.mean_transmitted(2.0), (1 + 0.01 + 2 * 0.0001) / 4, kExact);
}

TEST(Tones, OneDensityAtTwoPlacesIsTwoTones) {
    const std::vector<NegativeDensity> scale{{0.0}, {1.0}, {2.0}};
    const Tones tones(Histogram{1, 1, 2, 0, 3, 1}, scale);
    const std::vector<std::array<double, 3>> wanted{{0, 1, 0}, {1, 1, 0}, {1, 3, 1}, {2, 2, 0}, {2, 1, 1}};
    ASSERT_EQ(tones.all().size(), wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        EXPECT_EQ(tones.all()[i].density.value, wanted[i][0]);
        EXPECT_EQ(tones.all()[i].share, wanted[i][1] / 8);
        EXPECT_EQ(double(tones.all()[i].place), wanted[i][2]);
    }
    // Bins do not mix places either.
    for (const Tone& tone : tones.gathered(1)) EXPECT_EQ(tone.share, 0.5) << tone.place;
    EXPECT_EQ(tones.gathered(1).size(), 2u);
    EXPECT_EQ(Tones(Histogram{1, 1, 2}, scale).gathered(1).size(), 1u);
    EXPECT_THROW(Tones(Histogram{1, 1, 2, 0}, scale), Error);
}

TEST(Tones, GatheringKeepsAreaAndMeanDensity) {
    std::vector<NegativeDensity> scale;
    Histogram histogram;
    for (int code = 0; code < 1000; ++code) {
        scale.push_back({code * 0.003});
        histogram.push_back(std::uint64_t(code % 17));
    }
    const Tones tones(histogram, scale);
    const auto few = tones.gathered(40);
    EXPECT_LE(few.size(), 40u);
    double area = 0, mean = 0, fine_mean = 0;
    for (const auto& tone : few) area += tone.share, mean += tone.share * tone.density.value;
    for (const auto& tone : tones.all()) fine_mean += tone.share * tone.density.value;
    EXPECT_NEAR(area, 1.0, kExact);
    EXPECT_NEAR(mean, fine_mean, kExact);
    for (std::size_t i = 1; i < few.size(); ++i) EXPECT_GT(few[i].density, few[i - 1].density);
}

TEST(Tones, HistogramThatFitsNoScaleIsRefused) {
    const std::vector<NegativeDensity> scale(4);
    EXPECT_THROW(Tones(Histogram{1, 2, 3}, scale), Error);
    EXPECT_THROW(Tones(Histogram{0, 0, 0, 0}, scale), Error);
}

}  // namespace
}  // namespace fogproof::tests
