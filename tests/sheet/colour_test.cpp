// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Colour arithmetic against published values and against Little CMS as a second implementation.
#include "fogproof/sheet/colour.hpp"
#include "support/read_back.hpp"
#include "support/rooms.hpp"

#include <gtest/gtest.h>
#include <lcms2.h>

#include <cmath>
#include <random>

namespace fogproof::tests {
namespace {

constexpr double kPublishedDigits = 5e-5;  // CIEDE2000 pairs are printed to four decimals
constexpr double kSameArithmetic = 1e-9;   // two double implementations of one formula
// Little CMS writes two constants of CIEDE2000 and the Lab break rounded.
constexpr double kWitness = 1e-4;

TEST(Colour, TablesHoldThePublishedValues) {
    // CIE 1931 2 degree observer and D50 as printed in colour-science/colour, cmfs.py and sds.py.
    const auto at = [](const Spectrum& s, double nm) { return s[std::size_t((nm - 380.0) / 10.0)]; };
    EXPECT_EQ(at(cie_x(), 600), 1.0622);
    EXPECT_EQ(at(cie_x(), 440), 0.34828);
    EXPECT_EQ(at(cie_y(), 550), 0.9949501);
    EXPECT_EQ(at(cie_y(), 730), 0.00052);
    EXPECT_EQ(at(cie_z(), 380), 0.006450001);
    EXPECT_EQ(at(cie_z(), 450), 1.77211);
    EXPECT_EQ(at(cie_d50(), 380), 24.488);
    EXPECT_EQ(at(cie_d50(), 560), 100.0);
    EXPECT_EQ(at(cie_d50(), 730), 86.511);
}

TEST(Colour, EveryRowLiesNearTheAnalyticFit) {
    // Wyman, Sloan and Shirley, J. Comput. Graph. Tech. 2 (2), 1 (2013), the fit of several lobes, from
    // memory.
    constexpr double kFit = 0.015;  // of functions that reach 1.06, 1.00 and 1.78
    const auto lobe = [](double nm, double peak, double below, double above) {
        const double u = (nm - peak) / (nm < peak ? below : above);
        return std::exp(-u * u / 2.0);
    };
    for (std::size_t i = 0; i < kBands; ++i) {
        const double nm = band_nm(i);
        EXPECT_NEAR(cie_x()[i],
                    1.056 * lobe(nm, 599.8, 37.9, 31.0) + 0.362 * lobe(nm, 442.0, 16.0, 26.7) -
                        0.065 * lobe(nm, 501.1, 20.4, 26.2),
                    kFit);
        EXPECT_NEAR(cie_y()[i], 0.821 * lobe(nm, 568.8, 46.9, 40.5) + 0.286 * lobe(nm, 530.9, 16.3, 31.1),
                    kFit);
        EXPECT_NEAR(cie_z()[i], 1.217 * lobe(nm, 437.0, 11.8, 36.0) + 0.681 * lobe(nm, 459.0, 26.0, 13.8),
                    kFit);
    }
}

TEST(Colour, TenNanometreSumsGiveTheWhiteOfD50) {
    double x = 0, y = 0, z = 0;
    for (std::size_t i = 0; i < kBands; ++i) {
        x += cie_x()[i] * cie_d50()[i];
        y += cie_y()[i] * cie_d50()[i];
        z += cie_z()[i] * cie_d50()[i];
    }
    EXPECT_NEAR(100 * x / y, 96.38399, 1e-4);
    EXPECT_NEAR(100 * z / y, 82.45324, 1e-4);
    // CIE 15: 0.34567, 0.35851 from finer steps; 10 nm without end corrections is off by about 0.0001.
    EXPECT_NEAR(x / (x + y + z), 0.34567, 2e-4);
    EXPECT_NEAR(y / (x + y + z), 0.35851, 2e-4);
}

TEST(Colour, PerfectDiffuserIsExactlyWhite) {
    Spectrum flat;
    flat.fill(1.0);
    const XYZ white = xyz_under_d50(flat);
    EXPECT_NEAR(white.x, 0.9642, 1e-14);
    EXPECT_NEAR(white.y, 1.0, 1e-14);
    EXPECT_NEAR(white.z, 0.8249, 1e-14);
    EXPECT_NEAR(visual_density(flat).value, 0.0, 1e-14);
    const Lab neutral = lab(white);
    EXPECT_NEAR(neutral.l, 100.0, 1e-12);
    EXPECT_NEAR(std::hypot(neutral.a, neutral.b), 0.0, 1e-11);
}

TEST(Colour, NeutralDensitiesHaveTheLightnessOfCie15) {
    const std::pair<double, double> printed[] = {
        {0.04, 96.493},  {0.05, 95.633}, {0.10, 91.430}, {0.20, 83.493}, {0.30, 76.142}, {0.60, 57.191},
        {0.745, 49.482}, {1.00, 37.842}, {1.50, 20.682}, {2.00, 8.991},  {2.10, 7.175},  {2.20, 5.699}};
    for (const auto& [density, l] : printed) {
        EXPECT_NEAR(lightness({density}), l, 6e-4);
        Spectrum grey;
        grey.fill(std::pow(10.0, -density));
        EXPECT_NEAR(lab(xyz_under_d50(grey)).l, l, 6e-4);
        EXPECT_NEAR(visual_density(grey).value, density, 1e-12);
    }
}

TEST(Colour, VisualDensityWeighsGreenMostAndFollowsIlluminantA) {
    // Illuminant A is a Planckian radiator at 2856 K (CIE 15): its Y-weighted centre lies above 560 nm, that
    // of D50 below it, so a reddish paper reads thinner under A than its Y under D50.
    Spectrum reddish;
    for (std::size_t i = 0; i < kBands; ++i) reddish[i] = 0.5 + (band_nm(i) - 555.0) / 700.0;
    EXPECT_LT(visual_density(reddish).value, -std::log10(xyz_under_d50(reddish).y));
}

TEST(Colour, LabAgreesWithLittleCms) {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int trial = 0; trial < 1000; ++trial) {
        const double scale = std::pow(10.0, -4.0 * unit(random));
        const XYZ mine{scale * unit(random), scale * unit(random), scale * unit(random)};
        const cmsCIEXYZ theirs{mine.x, mine.y, mine.z};
        cmsCIELab witness;
        cmsXYZ2Lab(cmsD50_XYZ(), &witness, &theirs);
        const Lab own = lab(mine);
        EXPECT_NEAR(own.l, witness.L, kWitness);
        EXPECT_NEAR(own.a, witness.a, 5 * kWitness);
        EXPECT_NEAR(own.b, witness.b, 2 * kWitness);
        const XYZ back = xyz(own);
        EXPECT_NEAR(back.x, mine.x, kSameArithmetic);
        EXPECT_NEAR(back.y, mine.y, kSameArithmetic);
        EXPECT_NEAR(back.z, mine.z, kSameArithmetic);
    }
}

// The measure of differences in all these tests is that of Little CMS.
// Sharma, Wu and Dalal, Color Res. Appl. 30 (1), 21-30 (2005), Table 1.
struct Pair {
    Lab one, two;
    double difference;
};
constexpr Pair kSharma[] = {
    {{50.0000, 2.6772, -79.7751}, {50.0000, 0.0000, -82.7485}, 2.0425},
    {{50.0000, 3.1571, -77.2803}, {50.0000, 0.0000, -82.7485}, 2.8615},
    {{50.0000, 2.8361, -74.0200}, {50.0000, 0.0000, -82.7485}, 3.4412},
    {{50.0000, -1.3802, -84.2814}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -1.1848, -84.8006}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -0.9009, -85.5211}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, 0.0000, 0.0000}, {50.0000, -1.0000, 2.0000}, 2.3669},
    {{50.0000, -1.0000, 2.0000}, {50.0000, 0.0000, 0.0000}, 2.3669},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0009}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0010}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0011}, 7.2195},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0012}, 7.2195},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0009, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0010, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0011, -2.4900}, 4.7461},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 0.0000, -2.5000}, 4.3065},
    {{50.0000, 2.5000, 0.0000}, {73.0000, 25.0000, -18.0000}, 27.1492},
    {{50.0000, 2.5000, 0.0000}, {61.0000, -5.0000, 29.0000}, 22.8977},
    {{50.0000, 2.5000, 0.0000}, {56.0000, -27.0000, -3.0000}, 31.9030},
    {{50.0000, 2.5000, 0.0000}, {58.0000, 24.0000, 15.0000}, 19.4535},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.1736, 0.5854}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2972, 0.0000}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 1.8634, 0.5757}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

TEST(DeltaE, ReproducesAllPublishedPairs) {
    ASSERT_EQ(std::size(kSharma), 34u);
    for (const Pair& pair : kSharma) {
        EXPECT_NEAR(difference(pair.one, pair.two), pair.difference, kPublishedDigits);
        EXPECT_NEAR(difference(pair.two, pair.one), pair.difference, kPublishedDigits);
    }
}

}  // namespace
}  // namespace fogproof::tests
