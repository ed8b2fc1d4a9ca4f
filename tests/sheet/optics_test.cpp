// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Light in the gelatin layer against closed forms and an independent adaptive integral.
#include "sheet/optics.hpp"
#include "support/rooms.hpp"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <numbers>

namespace fogproof::tests {
namespace {

using std::numbers::pi;

constexpr double kPrinted = 6e-7;     // six printed digits
constexpr double kIntegral = 1e-9;    // adaptive integral, asked for 1e-12
constexpr double kTableError = 1e-8;  // what optics.hpp promises for R
constexpr double kFourDigits = 3e-4;  // densities printed to four digits, each within 2e-4

// Unpolarised reflectance by the tangent and sine laws, unlike the cosine form of the product.
double fresnel_by_angles(double n1, double n2, double angle) {
    if (n1 * std::sin(angle) >= n2) return 1.0;
    if (angle == 0.0) return std::pow((n1 - n2) / (n1 + n2), 2);
    const double other = std::asin(n1 * std::sin(angle) / n2);
    return 0.5 * (std::pow(std::sin(angle - other) / std::sin(angle + other), 2) +
                  std::pow(std::tan(angle - other) / std::tan(angle + other), 2));
}

template <class F>
double integral(F f, double from, double to) {
    return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(f, from, to, 15, 1e-12);
}

double return_by_integral(double n, double layer) {
    const auto share = [=](double a) {
        const double c = std::cos(a);
        return c <= 0.0
                   ? 0.0
                   : 2.0 * fresnel_by_angles(n, 1.0, a) * std::pow(10.0, -2.0 * layer / c) * std::sin(a) * c;
    };
    const double critical = std::asin(1.0 / n);
    return integral(share, 0.0, critical) + integral(share, critical, pi / 2.0);
}

double reflectance_by_integral(double n, double rho, double layer) {
    const double inside = std::asin(std::sin(pi / 4.0) / n);
    return (1.0 - fresnel_by_angles(1.0, n, 0.0)) * (1.0 - fresnel_by_angles(1.0, n, pi / 4.0)) / (n * n) *
           rho * std::pow(10.0, -layer * (1.0 + 1.0 / std::cos(inside))) /
           (1.0 - rho * return_by_integral(n, layer));
}

// Duntley, J. Opt. Soc. Am. 32, 61 (1942), from memory.
double duntley(double n) {
    const double n2 = n * n, n4 = n2 * n2;
    return 0.5 + (n - 1) * (3 * n + 1) / (6 * (n + 1) * (n + 1)) +
           n2 * (n2 - 1) * (n2 - 1) / std::pow(n2 + 1, 3) * std::log((n - 1) / (n + 1)) -
           2 * n2 * n * (n2 + 2 * n - 1) / ((n2 + 1) * (n4 - 1)) +
           8 * n4 * (n4 + 1) / ((n2 + 1) * (n4 - 1) * (n4 - 1)) * std::log(n);
}

TEST(Optics, FresnelAgreesWithTheLawsOfSinesAndTangents) {
    EXPECT_NEAR(fresnel(1.0, 1.50, 0.0), 0.04, 1e-15);
    EXPECT_NEAR(fresnel(1.0, 1.53, 0.0), 0.043884, kPrinted);
    EXPECT_NEAR(1.0 - fresnel(1.0, 1.53, pi / 4.0), 0.945545, kPrinted);
    for (const double n : {1.3, 1.5, 1.53, 1.7})
        for (double angle = 0.05; angle < 1.55; angle += 0.05) {
            EXPECT_NEAR(fresnel(1.0, n, angle), fresnel_by_angles(1.0, n, angle), 1e-12);
            EXPECT_NEAR(fresnel(n, 1.0, angle), fresnel_by_angles(n, 1.0, angle), 1e-12);
        }
}

TEST(Optics, BrewsterAngleReflectsOnlyOnePolarisation) {
    const double brewster = std::atan(1.53);
    const double s = std::pow(std::cos(2.0 * brewster), 2);  // sin(a - b) with a + b = 90 degrees
    EXPECT_NEAR(fresnel(1.0, 1.53, brewster), s / 2.0, 1e-12);
}

TEST(Optics, PastTheCriticalAngleEverythingReturns) {
    const double critical = 41.810315 * pi / 180.0;  // asin(1/1.5)
    EXPECT_LT(fresnel(1.5, 1.0, critical - 1e-6), 1.0);
    EXPECT_EQ(fresnel(1.5, 1.0, critical + 1e-6), 1.0);
    // Share of diffuse light past it: 1 - 1/n^2.
    const auto share = [](double a) { return fresnel(1.5, 1.0, a) == 1.0 ? std::sin(2.0 * a) : 0.0; };
    EXPECT_NEAR(integral(share, std::asin(1 / 1.5), pi / 2.0), 0.555556, 1e-6);
}

// Share of diffuse light outside that the surface sends back.
double diffuse_external_reflectance(double index) {
    const auto share = [index](double a) { return fresnel(1.0, index, a) * std::sin(2.0 * a); };
    return integral(share, 0.0, pi / 2.0);
}

TEST(Optics, DiffuseReflectancesHaveTheirKnownValues) {
    EXPECT_NEAR(internal_return(0.0, 1.50), 0.596346, kPrinted);
    EXPECT_NEAR(internal_return(0.0, 1.53), 0.613894, kPrinted);
    EXPECT_NEAR(diffuse_external_reflectance(1.50), 0.091778, kPrinted);
    EXPECT_NEAR(diffuse_external_reflectance(1.53), 0.096164, kPrinted);
    for (const double n : {1.3, 1.4, 1.5, 1.53, 1.6, 1.7}) {
        EXPECT_NEAR(diffuse_external_reflectance(n), duntley(n), kIntegral);
        // Reciprocity of the surface.
        EXPECT_NEAR(internal_return(0.0, n), 1.0 - (1.0 - duntley(n)) / (n * n), kIntegral);
    }
    // The polynomial cited from Donner and Jensen, ACM Trans. Graph. 24, 1032 (2005), good to 4e-4.
    for (const double n : {1.50, 1.53})
        EXPECT_NEAR(internal_return(0.0, n), -1.440 / (n * n) + 0.710 / n + 0.668 + 0.0636 * n, 5e-4);
}

TEST(Optics, InternalReturnAgreesWithTheAdaptiveIntegral) {
    for (const double n : {1.4, 1.53})
        for (const double layer : {0.0, 1e-4, 0.003, 0.02, 0.1, 0.5, 1.0, 2.5})
            EXPECT_NEAR(internal_return(layer, n), return_by_integral(n, layer), kIntegral) << layer;
}

TEST(WilliamsClapper, FactorAndExponentAreThePrintedOnes) {
    // R = 0.193 t^2.13 / (1/(2 rho) - ...): the printed form of the 1953 paper, constants from memory.
    const double tiny = 1e-9;
    const double factor = williams_clapper(tiny, 0.0) / tiny;
    EXPECT_NEAR(factor, 0.386198, 1e-6);
    EXPECT_NEAR(factor / 2.0, 0.193, 5e-4);
    const double exponent = std::log10(williams_clapper(tiny, 0.0) / williams_clapper(tiny, 1.0));
    EXPECT_NEAR(exponent, 2.127655, 1e-6);
    EXPECT_NEAR(exponent, 2.13, 5e-3);
}

TEST(WilliamsClapper, PerfectBaseBehindClearGelatinIsWhite) {
    EXPECT_NEAR(williams_clapper(1.0, 0.0), 1.0, 5e-4);
    // Whites from the same formula, evaluated elsewhere.
    for (const auto& [rho, white] :
         {std::pair{0.85, 0.68648}, {0.9, 0.77672}, {0.95, 0.88025}, {1.0, 1.00024}})
        EXPECT_NEAR(williams_clapper(rho, 0.0), white, 1e-5);
}

TEST(WilliamsClapper, DensitiesAboveWhiteMatchValuesEvaluatedElsewhere) {
    // No published table of the curve was found; these come from the formula with another quadrature.
    const double at[] = {0.05, 0.10, 0.50, 1.00};
    const std::pair<double, std::array<double, 4>> rows[] = {{0.85, {0.2614, 0.4339, 1.3797, 2.4479}},
                                                             {0.90, {0.2782, 0.4561, 1.4082, 2.4767}},
                                                             {1.00, {0.3172, 0.5067, 1.4717, 2.5407}}};
    for (const auto& [rho, expected] : rows)
        for (std::size_t i = 0; i < 4; ++i)
            EXPECT_NEAR(std::log10(williams_clapper(rho, 0.0) / williams_clapper(rho, at[i])), expected[i],
                        kFourDigits);
}

TEST(WilliamsClapper, TableKeepsItsPromiseAgainstTheAdaptiveIntegral) {
    for (const double rho : {0.4, 0.85, 1.0, 1.05})
        for (double layer = 1e-7; layer < 8.0; layer = layer * 1.07 + 1e-7)
            ASSERT_NEAR(williams_clapper(rho, layer), reflectance_by_integral(1.53, rho, layer), kTableError)
                << layer;
}

TEST(WilliamsClapper, SlopeInDeepBlackIsThePathOfTheLight) {
    const double slope = std::log10(williams_clapper(0.9, 2.0) / williams_clapper(0.9, 2.5)) / 0.5;
    EXPECT_NEAR(slope, 2.1277, 1e-4);
    // Faint fog shows strongly. At none the slope is 1 + sec b + rho J / (1 - rho r_i) with
    // J = 4 * integral r(a) sin a da, about four times that of deep black.
    const auto turned = [](double a) { return 4.0 * fresnel_by_angles(1.53, 1.0, a) * std::sin(a); };
    const double critical = std::asin(1.0 / 1.53);
    const double j = integral(turned, 0.0, critical) + integral(turned, critical, pi / 2.0);
    const double first = std::log10(williams_clapper(0.9, 0.0) / williams_clapper(0.9, 1e-6)) / 1e-6;
    EXPECT_NEAR(first, 2.127655 + 0.9 * j / (1.0 - 0.9 * 0.613894), 1e-3);
    EXPECT_GT(first, 8.0);
}

TEST(WilliamsClapper, SaundersonFormAgreesForDiffuseLightThroughAClearLayer) {
    // Saunderson as printed in Computational Colour Science Using MATLAB, eq. 9.9, p. 148: body reflectance
    // from measured P and back. A clear layer shows a base through r_i alone, so both laws bend it the same
    // way.
    const double re = diffuse_external_reflectance(1.5), ri = internal_return(0.0, 1.5);
    for (const double p : {0.12, 0.3, 0.6, 0.9}) {
        const double body = (p - re) / ((1 - re) * (1 - ri) + ri * (p - re));
        EXPECT_NEAR(re + (1 - re) * (1 - ri) * body / (1 - ri * body), p, 1e-12);
    }
    const double r153 = internal_return(0.0, 1.53);
    for (const double rho : {0.2, 0.5, 0.9})
        EXPECT_NEAR(williams_clapper(rho, 0.0) / williams_clapper(1.0, 0.0),
                    (1 - r153) * rho / (1 - r153 * rho), 1e-8);
}

TEST(WilliamsClapper, BaseBehindAClearLayerIsItsInverse) {
    for (const double rho : {0.01, 0.5, 0.9, 1.05})
        EXPECT_NEAR(base_behind_clear_layer(williams_clapper(rho, 0.0)), rho, 1e-13);
}

}  // namespace
}  // namespace fogproof::tests
