// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The finished sheet against its own slip readings, Beer's law and the order of tones.
#include "fogproof/sheet/sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "fogproof/base/error.hpp"
#include "sheet/optics.hpp"
#include "support/read_back.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Newton stops at 1e-11; inverting and rebuilding 36 bands adds rounding.
constexpr double kSlip = 1e-9;
// The pair is a student's reading with an error of about 0.6 %, and literature spreads by 4 %.
constexpr double kReportedPair = 0.03;

FinishedSilver developed_only(double layer) {
    return {{layer}, {}, {}};
}

TEST(Sheet, ClearSheetShowsTheFixedOnlySlip) {
    for (const auto& [density, a, b] : {std::array{0.08, 0.0, -1.0},
                                        {0.05, 0.6, -2.5},
                                        {0.12, -0.5, 6.0},
                                        {0.30, 1.5, 14.0},
                                        {0.0458, 0.0, 0.0}})
        for (const double surface : {0.0, 0.005, 0.03}) {
            const Sheet sheet({.white_density = density, .white_a = a, .white_b = b, .surface = surface});
            const Spectrum clear = sheet.reflectance({});
            const Lab seen = lab(xyz_under_d50(clear));
            EXPECT_NEAR(visual_density(clear).value, density, kSlip);
            EXPECT_NEAR(sheet.white().value, density, kSlip);
            EXPECT_NEAR(seen.a, a, 100 * kSlip);
            EXPECT_NEAR(seen.b, b, 100 * kSlip);
        }
}

TEST(Sheet, AWhiteThatNoBaseCanShowIsRefused) {
    EXPECT_THROW(Sheet({.white_density = -0.05}), Error);
    EXPECT_THROW(Sheet({.white_density = 0.02, .white_b = -12.0}), Error);
    EXPECT_THROW(Sheet({.white_density = 0.08, .surface = 0.9}), Error);
    EXPECT_THROW(Sheet({.white_density = std::nan("")}), Error);
    EXPECT_THROW(Sheet({.white_density = 0.08, .white_b = 400.0}), Error);
    try {
        Sheet({.white_density = -0.05});
    } catch (const Error& error) {
        EXPECT_EQ(error.fault(), Fault::config);
        EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
    }
}

TEST(Sheet, ReflectanceFallsWithSilverAndStaysBetweenNothingAndOne) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int trial = 0; trial < 200; ++trial) {
        const Sheet sheet({.white_density = 0.055 + 0.2 * unit(random),
                           .white_a = 2.0 * unit(random) - 1.0,
                           .white_b = 10.0 * unit(random) - 2.0,
                           .surface = 0.03 * unit(random),
                           .silver_tone = unit(random),
                           .thinned_tone = unit(random),
                           .redeveloped_tone = 2.0 * unit(random),
                           .stain = 0.1 * unit(random)});
        Spectrum before = sheet.reflectance({});
        for (double layer = 0.005; layer < 4.0; layer *= 1.5) {
            const Spectrum now = sheet.reflectance(developed_only(layer));
            for (std::size_t i = 0; i < kBands; ++i) {
                EXPECT_GT(now[i], 0.0);
                EXPECT_LE(now[i], 1.0);
                EXPECT_LE(now[i], before[i]);
            }
            EXPECT_LT(visual_density(before).value, visual_density(now).value);
            before = now;
        }
    }
}

TEST(Sheet, SilverWithoutToneFollowsWilliamsAndClapper) {
    const Sheet sheet({.white_b = 0.0, .surface = 0.0, .silver_tone = 0.0});
    const double base = base_behind_clear_layer(std::pow(10.0, -0.08));
    for (const double layer : {0.0, 0.01, 0.2, 0.8})
        EXPECT_NEAR(sheet.density({{layer}}).value, -std::log10(williams_clapper(base, layer)), 1e-4)
            << "a neutral base is grey only as far as the tables of the two lights agree";
}

TEST(Sheet, ToneFollowsThePowerOfTheWavelength) {
    // Two bands of a base without colour: their layer densities stand as (lambda/550)^-q.
    const Sheet sheet({.white_b = 0.0, .surface = 0.0, .silver_tone = 0.5, .redeveloped_tone = 1.0});
    const Spectrum left = sheet.reflectance({{1.0}, {}, {}}), neutral = sheet.reflectance({});
    const auto layer_of = [&](const Spectrum& seen, std::size_t i) {
        return std::log10(neutral[i] / seen[i]);
    };
    // Deep in the shadows the density above white is 2.1277 D plus a constant, so differences of two depths
    // tell D.
    const Spectrum deeper = sheet.reflectance({{1.5}, {}, {}});
    for (const std::size_t i : {2u, 17u, 32u}) {
        const double slope = (layer_of(deeper, i) - layer_of(left, i)) / 0.5 / 2.127655;
        EXPECT_NEAR(slope, std::pow(band_nm(i) / 550.0, -0.5), 1e-3);
    }
    const Spectrum back = sheet.reflectance({{}, {1.0}, {}}),
                   back_deeper = sheet.reflectance({{}, {1.5}, {}});
    for (const std::size_t i : {2u, 17u, 32u}) {
        const double slope = (layer_of(back_deeper, i) - layer_of(back, i)) / 0.5 / 2.127655;
        EXPECT_NEAR(slope, std::pow(band_nm(i) / 550.0, -1.0), 1e-3);
    }
}

TEST(Sheet, ThinnedRedevelopedAndStainedSilverIsWarmer) {
    const Sheet sheet({});
    const auto seen = [&](const FinishedSilver& s) { return lab(xyz_under_d50(sheet.reflectance(s))); };
    const Lab plain = seen({{0.2}, {}, {}});
    EXPECT_GT(seen({{0.2}, {}, {0.4}}).b, plain.b);
    EXPECT_GT(seen({{}, {0.2}, {}}).b, plain.b);
    // A cleared sheet ends a hair darker and warmer than a fixed one: common practice, no source.
    const Lab fixed = seen({}), cleared = seen({{0.0}, {}, {0.05}});
    EXPECT_LT(cleared.l, fixed.l);
    EXPECT_GT(cleared.b, fixed.b);
}

TEST(Sheet, ColourIsContinuousTowardsNoSilver) {
    const Sheet sheet({});
    const Lab none = lab(xyz_under_d50(sheet.reflectance({})));
    for (const FinishedSilver& trace :
         {FinishedSilver{{1e-12}, {}, {}}, {{}, {1e-12}, {}}, {{}, {}, {1e-12}}, {{1e-12}, {1e-12}, {1e-12}}})
        EXPECT_LT(difference(none, lab(xyz_under_d50(sheet.reflectance(trace)))), 1e-6);
}

TEST(Sheet, LayerShowingADensityShowsIt) {
    const Sheet sheet({});
    for (const double density : {0.0801, 0.1, 0.4, 1.0, 2.05, 2.25})
        EXPECT_NEAR(sheet.density({sheet.layer_showing({density})}).value, density, 1e-9);
    EXPECT_EQ(sheet.layer_showing({0.02}).value, 0.0);
    EXPECT_EQ(sheet.layer_showing({9.0}).value, 4.0);
}

TEST(Sheet, GlossyBlackNeedsTheSilverThatPapersCarry) {
    // Photometric equivalent 1.03 g/m2 (Sheppard and Mees 1907, from memory); papers carry 0.54 to 1.61 g/m2.
    const Sheet sheet({.surface = 0.0});
    const double grams = 1.03 * sheet.layer_showing({sheet.white().value + 2.05}).value;
    EXPECT_GT(grams, 0.54);
    EXPECT_LT(grams, 1.61);
}

TEST(Sheet, SurfaceLightLimitsTheBlack) {
    // Ives, Airplane Photography: matt black reflects up to 5 %, glossy black as little as 1 %.
    const Sheet gloss({.surface = 0.005}), matt({.surface = 0.03});
    const double gloss_black = std::pow(10.0, -gloss.density({{0.8}}).value);
    const double matt_black = std::pow(10.0, -matt.density({{0.8}}).value);
    EXPECT_GT(gloss_black, 0.005);
    EXPECT_LT(gloss_black, 0.02);
    EXPECT_GT(matt_black, 0.03);
    EXPECT_LT(matt_black, 0.05);
}

TEST(Bath, AbsorbanceAgreesWithTheReportedPair) {
    // A = 0.545 at 5.38e-4 mol/L and 1 cm, 420 nm: a student report on hexacyanoferrate, weak but
    // independent.
    const double grams_per_litre = 5.38e-4 * 329.248;
    EXPECT_NEAR(ferricyanide_absorbance(420.0, grams_per_litre, 1.0), 0.545, kReportedPair * 0.545);
}

// Sheets and silver all over what a pack may be; both promises of sheet.hpp.
TEST(Sheet, QuickFormsAreThoseOfTheWholeSpectrum) {
    constexpr double kDensity = 2e-5, kLightness = 0.003;
    std::mt19937 random(11);
    const auto between = [&](double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(random);
    };
    for (int each = 0; each < 300; ++each) {
        const Sheet sheet({.white_density = between(0.05, 0.3),
                           .white_a = between(-1, 1.5),
                           .white_b = between(-3, 14),
                           .surface = between(0, 0.03),
                           .silver_tone = between(-0.1, 0.3),
                           .thinned_tone = between(0, 0.6),
                           .redeveloped_tone = between(0, 1),
                           .stain = between(0, 0.1)});
        const FinishedSilver silver{{between(0, 1.3)}, {between(0, 0.3)}, {between(0, 1)}};
        const Spectrum seen = sheet.reflectance(silver);
        EXPECT_NEAR(sheet.quick_density(silver).value, visual_density(seen).value, kDensity);
        EXPECT_NEAR(sheet.quick_lightness(silver), lab(xyz_under_d50(seen)).l, kLightness);
    }
}

TEST(Bath, BeersLawIsProportionalToConcentrationAndPath) {
    const double once = ferricyanide_absorbance(430.0, 2.0, 0.5);
    EXPECT_DOUBLE_EQ(ferricyanide_absorbance(430.0, 4.0, 0.5), 2.0 * once);
    EXPECT_DOUBLE_EQ(ferricyanide_absorbance(430.0, 2.0, 1.0), 2.0 * once);
    EXPECT_EQ(ferricyanide_absorbance(430.0, 0.0, 1.0), 0.0);
}

TEST(Bath, FerricyanideIsYellow) {
    // From memory of the literature: some tens left at 480 to 500 nm, near zero above 520 nm.
    for (const double nm : {480.0, 490.0, 500.0}) {
        EXPECT_GT(ferricyanide_absorptivity(nm), 10.0);
        EXPECT_LT(ferricyanide_absorptivity(nm), 100.0);
    }
    EXPECT_LT(ferricyanide_absorptivity(530.0), 1.0);
    for (double nm = 420; nm < 520; nm += 5)
        EXPECT_GT(ferricyanide_absorptivity(nm), ferricyanide_absorptivity(nm + 5)) << nm;
    // A tray of it, 20 g/L and 1 cm deep, is yellow: it takes the blue and leaves green and red.
    const auto passes = [](double nm) { return std::pow(10.0, -ferricyanide_absorbance(nm, 20, 1)); };
    EXPECT_LT(passes(440), 0.01);
    EXPECT_GT(passes(540), 0.9);
    EXPECT_GT(passes(620), 0.9);
}

TEST(Bath, PrintUnderBathLosesTheAbsorbanceOfBothPasses) {
    const Sheet sheet({});
    const BathLayer bath{.ferricyanide_g_l = 2.0, .depth_mm = 5.0};
    const FinishedSilver silver{{0.1}, {}, {0.02}};
    const Spectrum dry = sheet.reflectance(silver), wet = sheet.reflectance_under(silver, bath);
    const double inside = std::asin(std::sin(std::acos(-1.0) / 4.0) / 1.33);  // Snell, water
    for (std::size_t i = 0; i < kBands; ++i)
        EXPECT_NEAR(std::log10(dry[i] / wet[i]),
                    ferricyanide_absorbance(band_nm(i), 2.0, 0.5) * (1.0 + 1.0 / std::cos(inside)), 1e-9);
    EXPECT_GT(lab(xyz_under_d50(wet)).b, lab(xyz_under_d50(dry)).b + 20.0);
    EXPECT_EQ(sheet.reflectance_under(silver, {}), dry);
}

}  // namespace
}  // namespace fogproof::tests
