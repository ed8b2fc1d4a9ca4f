// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/bleach/bleach.hpp"

#include <gtest/gtest.h>

#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "bleach/capacity.hpp"
#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/sheet/sheet.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace {

double left(double density, double starvation, double dose) {
    return bleached({{density}}, starvation, dose).left.value;
}

// What Boost.Odeint is asked to keep to, per step; the whole integration stays within ten times that.
constexpr double kOde = 1e-11;

}  // namespace

// The differential equation dA/dx = -A/(A+K), integrated by another library.
TEST(Bleach, ClosedFormIsTheSolutionOfTheRateLaw) {
    using namespace boost::numeric::odeint;
    for (const double k : {0.02, 0.15, 1.0, 20.0})
        for (const double a : {0.01, 0.1, 0.5, 1.2})
            for (const double dose : {0.005, 0.05, 0.3, 0.8}) {
                double silver = a;
                integrate_adaptive(
                    make_controlled<runge_kutta_dopri5<double>>(kOde, kOde),
                    [k](double now, double& rate, double) { rate = -now / (now + k); }, silver, 0.0, dose,
                    1e-4);
                EXPECT_NEAR(left(a, k, dose), silver, 10 * kOde) << "K " << k << " A " << a << " x " << dose;
            }
}

// The same with an order of its own, dA/dx = -A^m/(A^m+K^m), which has no closed form.
TEST(Bleach, AnyOrderIsTheSolutionOfItsRateLaw) {
    using namespace boost::numeric::odeint;
    constexpr double kClose = 1e-9;  // Newton ends at 1e-13 of a logarithm; the library is the rougher one
    int compared = 0;
    for (const double order : {0.6, 0.9, 1.3, 2.0})
        for (const double k : {0.05, 0.3})
            for (const double a : {0.1, 0.5, 1.2})
                for (const double dose : {0.02, 0.1, 0.3}) {
                    double silver = a;
                    // An order below 1 takes the last silver in a finite time, after which the law is none.
                    const auto rate_law = [=](double now, double& rate, double) {
                        const double power = std::pow(std::max(now, 0.0), order);
                        rate = -power / (power + std::pow(k, order));
                    };
                    if (dose_between({a}, {a / 50}, k, order) < dose) continue;
                    integrate_adaptive(make_controlled<runge_kutta_dopri5<double>>(kOde, kOde), rate_law,
                                       silver, 0.0, dose, 1e-4);
                    const double here = bleached({{a}}, k, dose, order).left.value;
                    EXPECT_NEAR(here, silver, kClose) << "m " << order << " K " << k << " A " << a;
                    EXPECT_NEAR(dose_between({a}, {silver}, k, order), dose, kClose);
                    ++compared;
                }
    EXPECT_GT(compared, 50);
}

// Classes of reducers, Studio Light (1918): a subtractive reducer takes the same silver everywhere, a
// proportional one the same share ("half proportional reduction removes 50 % of silver at every tone").
TEST(Bleach, SmallKSubtractsTheSameEverywhere) {
    for (const double a : {0.2, 0.5, 1.0}) {
        EXPECT_NEAR(left(a, 0, 0.15), a - 0.15, 1e-6);
        EXPECT_NEAR(left(a, 1e-4, 0.15), a - 0.15, 1e-3);
    }
    EXPECT_NEAR(left(0.1, 0, 0.15), 0, 1e-6);
}

TEST(Bleach, LargeKTakesTheSameShareEverywhere) {
    const double k = 1e5, half = k * std::log(2.0);
    for (const double a : {0.05, 0.4, 1.5}) EXPECT_NEAR(left(a, k, half) / a, 0.5, 1e-4);
}

// Ferricyanide acts fastest on the palest tones (Book of Photography; chestofbooks.com): share taken falls
// with density.
TEST(Bleach, PaleTonesLoseTheLargerShare) {
    double last = 1;
    for (const double a : {0.02, 0.05, 0.1, 0.3, 0.8}) {
        const double share = 1 - left(a, 0.15, 0.1) / a;
        EXPECT_LT(share, last);
        last = share;
    }
}

TEST(Bleach, ZeroDoseLeavesSilverUntouchedAndEndlessDoseLeavesNone) {
    EXPECT_EQ(left(0.7, 0.15, 0), 0.7);
    EXPECT_NEAR(left(0.7, 0.15, 50), 0, 1e-12);
    EXPECT_EQ(left(0, 0.15, 1), 0);
}

TEST(Bleach, LostAndLeftAreAllThereWas) {
    const BleachedSilver silver = bleached({{0.63}}, 0.12, 0.21);
    EXPECT_NEAR(silver.left.value + silver.lost.value, 0.63, 1e-15);
}

// w e^w = z for z = e^L, checked in logs where z itself would overflow.
TEST(Bleach, LambertWSolvesItsEquationInLogs) {
    for (const double log_argument : {-800.0, -30.0, -1.0, 0.0, 1.0, 50.0, 699.0, 701.0, 5000.0, 1e6}) {
        const double w = lambert_w_of_exp(log_argument);
        ASSERT_GE(w, 0);
        if (w > 0) {
            EXPECT_NEAR((std::log(w) + w) / std::max(1.0, std::abs(log_argument)),
                        log_argument / std::max(1.0, std::abs(log_argument)), 1e-13);
        }
    }
    EXPECT_NEAR(lambert_w_of_exp(1.0), 1.0, 1e-14);                  // W(e) = 1
    EXPECT_NEAR(lambert_w_of_exp(0.0), 0.56714329040978387, 1e-14);  // W(1), the omega constant
}

TEST(Bleach, DoseBetweenTwoDepositsBringsOneToTheOther) {
    const double dose = dose_between({0.4}, {0.03}, 0.15);
    EXPECT_NEAR(left(0.4, 0.15, dose), 0.03, 1e-13);
    EXPECT_EQ(dose_between({0.03}, {0.4}, 0.15), 0);
}

// Common practice, no source: 1+50 is the working dilution the rate speaks of; twice the ferricyanide works
// faster ("Book of Photography", Ferricyanide Reducer, in words).
TEST(Bleach, DoseFollowsStrengthAndTime) {
    const BleachRate rate{0.15, 0.004, 1.0, 5.0, 0.025};
    BleachBath bath;
    EXPECT_NEAR(bleach_dose(rate, bath, {35}), 0.004 * 30, 1e-12);
    EXPECT_EQ(bleach_dose(rate, bath, {4}), 0) << "still soaking in";
    bath.parts = 24.5;  // 1+24.5 holds twice what 1+50 does
    EXPECT_NEAR(bleach_dose(rate, bath, {35}), 0.004 * 60, 1e-12);
    EXPECT_NEAR(bleach_time(rate, bath, bleach_dose(rate, bath, {77})).value, 77, 1e-10);
    EXPECT_EQ(bleach_time(rate, bath, 0).value, 0);
}

// What diffusion in gelatin limits goes 2 to 3 % faster a kelvin (from memory).
TEST(Bleach, AWarmerBathWorksAsMuchFasterAsDiffusionDoes) {
    BleachRate rate;
    rate.soak_s = 0;
    BleachBath warm;
    warm.temperature_c += 1;
    for (const double dose : {0.02, 0.2}) {
        const double faster = bleach_time(rate, {}, dose).value / bleach_time(rate, warm, dose).value;
        EXPECT_GE(faster, 1.02);
        EXPECT_LE(faster, 1.03);
    }
}

// Ag + [Fe(CN)6]3- + Br- -> AgBr + [Fe(CN)6]4- with standard atomic weights: 1 g of silver takes 3.052 g of
// ferricyanide and 1.103 g of bromide and gives 1.741 g of silver bromide.
TEST(Capacity, OneGramOfSilverTakesItsShareOfFerricyanideAndBromide) {
    EXPECT_NEAR(ferricyanide_for_silver_g(1), 3.052, 0.003);
    EXPECT_NEAR(bromide_for_silver_g(1), 1.103, 0.001);
    EXPECT_NEAR(kSilverBromideMolarMass / kSilverMolarMass, 1.741, 0.0005);
}

// A litre at 18 g/L ferricyanide (rehalogenating bleach, Cyclopedia of Photography, "Registration of
// Photographs": 18 and 27 g/L) holds at most about 114 sheets of 20.32 x 25.4 cm at 1.0 g of silver per
// square metre.
TEST(Capacity, LitreOfStrongBleachHoldsAbout114Sheets) {
    const BleachBath bath{18, 27, 0, 20};
    EXPECT_NEAR(capacity_silver_g_l(bath) / (0.2032 * 0.254 * 1.0), 114, 1);
}

TEST(Capacity, ScarceBromideLimitsTheBath) {
    EXPECT_NEAR(capacity_silver_g_l({100, 1.103, 0, 20}), 1.0, 1e-3);
}

// Sheppard and Mees (1907), 1.03 g/m2 per density, from memory: a print 2.05 above white holds a layer
// density of about 0.80, so about 0.8 g/m2; photographic papers carry 0.54 to 1.61 g/m2.
TEST(Capacity, SilverOfABlackPrintIsInTheRangeOfPapers) {
    const Sheet sheet({.surface = 0});
    const LayerDensity black = sheet.layer_showing(sheet.white() + PrintDensity{2.05});
    EXPECT_NEAR(silver_g(black, 1.0), 0.8, 0.05);
    EXPECT_GT(silver_g(black, 1.0), 0.54);
    EXPECT_LT(silver_g(black, 1.0), 1.61);
}

// Cyclopedia of Photography, "Registration of Photographs": bleached and fully redeveloped, the image comes
// back practically unchanged; stopped early, density is lowered uniformly through the scale.
TEST(Redevelopment, FullReturnIsPracticallyUnchangedAndPartialIsProportional) {
    constexpr double kPractically = 0.05, kUniform = 0.05;  // of the density; the source gives words only
    const Redevelopment constants;
    const Sheet sheet({});
    double first = 0;
    for (const double a : {0.05, 0.2, 0.5, 0.8}) {
        // On the print, however little or much of it the bleach took.
        for (const double dose : {0.05, 0.2, 100.0}) {
            const double print = sheet.density({{a}}).value;
            const FinishedSilver again = redeveloped(bleached({{a}}, BleachRate{}, dose), constants, {180});
            EXPECT_NEAR(visual_density(sheet.reflectance(again)).value, print, kPractically * print);
        }
        const BleachedSilver all = bleached({{a}}, 0.15, 100);
        const FinishedSilver back = redeveloped(all, constants, {180});
        EXPECT_NEAR((back.left.value + back.back.value) / a, 1, kPractically);
        const FinishedSilver early = redeveloped(all, constants, {12});
        const double share = (early.left.value + early.back.value) / a;
        if (first == 0) first = share;
        EXPECT_LT(share, 0.6);
        EXPECT_NEAR(share / first, 1, kUniform);
    }
}

// The definition: what comes back stands in proportion to what was lost and can be developed, and covers by
// its own power.
TEST(Redevelopment, SilverGivenBackCoversByItsOwnPower) {
    constexpr double kCovering = 1.3, kRecoverable = 0.8, kRise = 25;
    const BleachedSilver half = bleached({{0.4}}, 0.15, 0.1);
    const FinishedSilver back = redeveloped(half, {kCovering, kRecoverable, kRise}, {kRise});
    const double returned = kRecoverable * (1 - std::exp(-1.0)) * half.lost.value;
    EXPECT_NEAR(back.back.value, kCovering * returned, 1e-12);
    EXPECT_NEAR(back.gone.value, half.lost.value - returned, 1e-12);
    EXPECT_EQ(back.left.value, half.left.value);
}

TEST(Redevelopment, NothingComesBackWithoutTimeOrOnceFixed) {
    const BleachedSilver half = bleached({{0.4}}, 0.15, 0.1);
    EXPECT_EQ(redeveloped(half, {}, {0}).back.value, 0);
    EXPECT_EQ(redeveloped(half, {1.0, 0.0, 25.0}, {200}).back.value, 0);
}

}  // namespace
}  // namespace fogproof::tests
