// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/emulsion/emulsion.hpp"

#include <gtest/gtest.h>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <memory>
#include <tuple>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace {

const boost::math::normal kNormal;

// The stated bound of the trapezoidal rule.
constexpr double kQuadrature = 1e-8;

double developed(const Emulsion& emulsion, const DevelopStep& step, EaselLight light) {
    return Developer(emulsion, step).developed(light).density.value;
}

Emulsion fogged(double share) {
    Emulsion emulsion;
    emulsion.fog.share = share;
    return emulsion;
}

constexpr EaselLight kDark{}, kFullLight{1e6, 1e6};

}  // namespace

// The integral of the law itself, by Boost's adaptive Gauss-Kronrod quadrature.
TEST(Emulsion, GrainShareIsTheIntegralOverGreenSensitisation) {
    for (const auto& [spread, green_spread, blue, green] : {std::tuple{0.16, 0.6, 0.4, 1.0},
                                                            {0.16, 0.6, 0.0, 0.8},
                                                            {0.05, 0.8, 1.5, 0.02},
                                                            {0.3, 0.3, 0.01, 3.0}}) {
        const Grains grains{0.0, spread, green_spread, 1.0};
        const auto integrand = [&, s = spread, g = green_spread, b = blue, v = green](double z) {
            const double light = b + v * std::pow(10.0, g * z);
            return cdf(kNormal, std::log10(light) / s) * pdf(kNormal, z);
        };
        const double exact =
            boost::math::quadrature::gauss_kronrod<double, 61>::integrate(integrand, -9.0, 9.0, 15, 1e-12);
        EXPECT_NEAR(GrainPopulation(grains).developable({blue, green}, 0.0), exact, kQuadrature);
    }
}

// Two independent normal spreads add in square: green light alone meets one normal population.
TEST(Emulsion, GreenLightAloneMeetsTheWiderSpread) {
    const Grains grains{0.2, 0.16, 0.6, 1.0};
    const GrainPopulation population(grains);
    const double wide = std::hypot(0.16, 0.6);
    for (double log_h = -2; log_h <= 2; log_h += 0.05)
        EXPECT_NEAR(population.developable({0, std::pow(10, log_h)}, 0.2), cdf(kNormal, (log_h - 0.2) / wide),
                    kQuadrature);
}

TEST(Emulsion, NoRippleShowsInTheSlopeOfAnyFilter) {
    for (const double balance : {-2.0, -1.0, -0.5, 0.0, 0.5, 1.0, 2.0}) {
        const GrainPopulation population(Grains{});
        std::vector<double> slope;
        double before = population.developable({std::pow(10, -3.0), std::pow(10, -3.0 + balance)}, 0);
        for (double log_h = -2.99; log_h < 3; log_h += 0.01) {
            const double now =
                population.developable({std::pow(10, log_h), std::pow(10, log_h + balance)}, 0);
            slope.push_back(now - before);
            before = now;
        }
        // A blend of a normal and a wider one has one hump, or a hump with one shoulder: the slope of the
        // slope changes sign at most three times. Quadrature ripple would change it dozens of times.
        int turns = 0;
        double direction = 1;
        for (std::size_t i = 1; i < slope.size(); ++i) {
            const double change = slope[i] - slope[i - 1];
            if (std::abs(change) < 1e-9 || change * direction > 0) continue;
            direction = -direction;
            ++turns;
        }
        EXPECT_LE(turns, 3) << "balance " << balance;
    }
}

// Independent events: 1 - (1-p)(1-f). Contrast falls once fog forms within the image ("Theory & Practice",
// development, P4, before s. 341, in words); blacks stay.
TEST(Emulsion, FogLiftsBlankPaperMostAndLeavesBlackAlone) {
    const double amount = Emulsion{}.grains.max_density;
    for (const double share : {0.05, 0.1, 0.3}) {
        const Emulsion old = fogged(share), fresh = fogged(0);
        const DevelopStep step;
        EXPECT_NEAR(developed(old, step, kDark), share * amount, 1e-12);
        EXPECT_NEAR(developed(old, step, kFullLight), developed(fresh, step, kFullLight), 1e-9);
        double last = share * amount + 1e-12;
        for (double log_h = -1; log_h < 1.5; log_h += 0.1) {
            const EaselLight light{std::pow(10, log_h), 0};
            const double rise = developed(old, step, light) - developed(fresh, step, light);
            EXPECT_NEAR(rise, share * (amount - developed(fresh, step, light)), 1e-9);
            EXPECT_LE(rise, last);
            last = rise;
        }
    }
}

// Closed forms: the logarithm, the straight line and Langmuir's adsorption, all alike at the amount that
// halves the fog.
TEST(Emulsion, TheBendTurnsSpeedLossFromALogarithmIntoALineOrLetsItLevelOff) {
    constexpr double kRounding = 1e-12;
    Emulsion emulsion;
    const double half = emulsion.restrainer.half_ml_l,
                 at_half = emulsion.restrainer.speed_loss * std::log10(2.0);
    const auto lost = [&](double bend, double doses) {
        emulsion.restrainer.speed_bend = bend;
        const DevelopStep step{doses * half, emulsion.development.nominal_s, emulsion.development.nominal_c};
        return Developer(emulsion, step).log_threshold() - emulsion.grains.log_threshold;
    };
    for (const double doses : {0.0, 0.3, 1.0, 4.0}) {
        EXPECT_NEAR(lost(0, doses), emulsion.restrainer.speed_loss * std::log10(1 + doses), kRounding);
        EXPECT_NEAR(lost(1, doses), at_half * doses, kRounding);
        EXPECT_NEAR(lost(-1, doses), at_half * 2 * doses / (1 + doses), kRounding);
        // No step where the formula changes over.
        EXPECT_NEAR(lost(2e-6, doses), lost(0, doses), 1e-5);
    }
}

// Common practice, no source: a restrained fogged sheet still shows grey; doubling the restrainer lowers the
// fog again and costs speed. Bromide lowers effective speed: Anchell, The Darkroom Cookbook (3rd ed. 2008),
// p. 26.
TEST(Emulsion, EveryDoublingOfRestrainerLowersFogAndCostsSpeed) {
    const Emulsion old = fogged(0.15);
    double fog = developed(old, {0, 90, 20}, kDark);
    double middle = developed(old, {0, 90, 20}, {1, 0});
    for (const double ml_l : {5.0, 10.0, 20.0, 40.0, 80.0}) {
        const double now = developed(old, {ml_l, 90, 20}, kDark);
        EXPECT_LT(now, fog);
        EXPECT_GT(now, 0);
        const double toned = developed(old, {ml_l, 90, 20}, {1, 0});
        EXPECT_LT(toned, middle);
        fog = now;
        middle = toned;
    }
}

// What half_ml_l says of itself, whatever its steepness: own definition, no source.
TEST(Emulsion, HalfTheFogIsLeftAtTheAmountThatHalvesIt) {
    constexpr double kRounding = 1e-12;
    for (const double steepness : {0.5, 1.0, 3.0}) {
        Emulsion old = fogged(0.15);
        old.restrainer.steepness = steepness;
        const double free = developed(old, {0, 90, 20}, kDark);
        const double beyond_reach = old.restrainer.fog_floor * free;
        EXPECT_NEAR(developed(old, {old.restrainer.half_ml_l, 90, 20}, kDark) - beyond_reach,
                    (free - beyond_reach) / 2, kRounding);
    }
}

// The same integral by another way of looking up its normal share; cubic interpolation over steps of 1/40.
TEST(Emulsion, TheQuickTableGivesTheSharesOfTheIntegral) {
    constexpr double kInterpolation = 1e-7;  // as ShareTable promises
    for (const Grains& grains : {Grains{0.4, 0.16, 0.6, 1.0}, Grains{-0.3, 0.3, 0.2, 1.0}}) {
        const GrainPopulation exact(grains), quick(grains, std::make_shared<ShareTable>(grains));
        for (double log_h = -2; log_h <= 2; log_h += 0.1)
            for (const double threshold : {-0.7, 0.0, 0.9}) {
                const EaselLight light{0.4 * std::pow(10.0, log_h), std::pow(10.0, log_h)};
                EXPECT_NEAR(quick.developable(light, threshold), exact.developable(light, threshold),
                            kInterpolation);
            }
    }
}

// "Theory & Practice" (L. P. Clerc, c. 1937), ss. 556-557, a bromide paper developed for 100, 140, 200 and
// 280 s: blacks at 140 s and 200 s are equal, at 100 s weaker; whites are clean to 200 s and grey at 280 s;
// more exposure does not cure too short a development. The paper of that test was slower than a modern one:
// all its times are stretched until 140 s is the shortest for full black, and its trace of fog is such that a
// veil is just not seen at 200 s. The order of events follows from the constants as they are for every paper.
TEST(Emulsion, BromidePaperAgesInTheDeveloperAsTheHandbookTells) {
    constexpr double kVisible = 0.02;  // layer density: 0.04 on the print
    // The eye sees a veil of 0.04 print density; at the slope of about 8 of thin silver that is 0.005 in the
    // layer.
    constexpr double kVeil = 0.005;
    const Emulsion usual = fogged(0);
    const double most = developed(usual, {0, 1e4, 20}, kFullLight);
    double shortest = 1;
    while (developed(usual, {0, shortest, 20}, kFullLight) < most - kVisible) shortest += 0.25;
    const auto time = [&](double told) { return told / 140 * shortest; };
    const auto black = [&](double told, EaselLight light) {
        return developed(usual, {0, time(told), 20}, light);
    };
    EXPECT_LT(black(100, kFullLight), black(140, kFullLight) - kVisible);
    EXPECT_NEAR(black(140, kFullLight), black(200, kFullLight), kVisible);
    EXPECT_LT(black(100, {5e6, 5e6}), black(140, kFullLight) - kVisible)
        << "five times the exposure is no cure";
    const auto veil = [&](double told, double share) {
        return developed(fogged(share), {0, time(told), 20}, kDark);
    };
    double share = 0;
    while (veil(200, share + 1e-5) < 0.95 * kVeil) share += 1e-5;
    EXPECT_LT(veil(200, share), kVeil);
    EXPECT_GT(veil(280, share), kVeil);
}

// "Theory & Practice", development, P4: fog grows at a falling rate, yet outruns the image on forcing.
TEST(Emulsion, FogGrowsEverSlowerButOutrunsTheImage) {
    const Emulsion old = fogged(0.1);
    const auto fog = [&](double t) {
        const Developer developer(old, {0, t, 20});
        return developer.developed({}).density.value / developer.max_density().value;
    };
    EXPECT_GT(fog(120) - fog(90), fog(180) - fog(150));
    const auto black = [&](double t) { return Developer(old, {0, t, 20}).max_density().value; };
    EXPECT_GT(fog(180) / fog(90), black(180) / black(90));
}

// Common practice, no source: developed longer, the same grey needs less exposure. By how much is the
// definition of the constant.
TEST(Emulsion, LongerDevelopmentIsFaster) {
    Emulsion paper = fogged(0);
    for (const double gain : {0.1, 0.4}) {
        paper.development.speed_gain = gain;
        const auto threshold = [&](double t) { return Developer(paper, {0, t, 20}).log_threshold(); };
        EXPECT_NEAR(threshold(60) - threshold(120), gain * std::log10(2.0), 1e-12);
    }
}

// Temperature coefficients of developers, the factor on the time for 10 C: 1.3 of metol to 2.8 of
// hydroquinone, about 2 of both together (A. Watkins' tables, from memory).
TEST(Emulsion, TenDegreesWarmerHalfTheTimeGivesTheSamePrint) {
    const Emulsion old = fogged(0.1);
    for (const EaselLight light : {kDark, EaselLight{1, 0}, kFullLight}) {
        const double wanted = developed(old, {10, 90, 15}, light);
        double shorter = 1, longer = 90;
        while (longer - shorter > 1e-6) {
            const double middle = (shorter + longer) / 2;
            (developed(old, {10, middle, 25}, light) < wanted ? shorter : longer) = middle;
        }
        EXPECT_NEAR(90 / longer, 2, 0.3);
    }
}

TEST(Emulsion, FixedOnlySlipHoldsNoSilver) {
    EXPECT_EQ(developed(fogged(0.3), {0, 0, 20}, kFullLight), 0);
    EXPECT_EQ(developed(fogged(0.3), {0, 5, 20}, kFullLight), 0) << "still within the induction period";
}

TEST(FilteredGrains, AnswerAsTheirPopulationDoesThroughThatFilter) {
    Grains grains;
    grains.skew = 0.2;
    Grains departing = grains;
    departing.departure.slope[2] = 0.3;
    departing.departure.slower[1] = 0.1;
    for (const Grains& some : {Grains{}, grains, departing})
        for (const bool tabled : {false, true}) {
            const GrainPopulation population(some, tabled ? std::make_shared<const ShareTable>(some)
                                                          : std::shared_ptr<const ShareTable>());
            for (const Filter& filter : {Filter{1, 0}, Filter{0, 1}, Filter{0.3, 0.9}}) {
                const FilteredGrains filtered(population, filter);
                for (double log_h = -3; log_h <= 3; log_h += 0.37) {
                    const double h = std::pow(10.0, log_h);
                    // A table errs by 1e-5; blue light alone is answered without one.
                    EXPECT_NEAR(filtered.developable(log_h),
                                population.developable({h * filter.blue, h * filter.green}, 0),
                                tabled && filter.green <= 0 ? 1e-5 : 1e-9)
                        << log_h;
                }
            }
        }
}

}  // namespace
}  // namespace fogproof::tests
