// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A paper whose grains depart from the laws.
#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <random>

#include "fogproof/emulsion/emulsion.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Share of grains; the nodes of an integral over sensitisations show no more of a ripple.
constexpr double kRipple = 1e-6;

Grains random_grains(std::mt19937& random) {
    std::normal_distribution<> usual;
    Grains grains;
    for (double& g : grains.departure.slope) g = 0.6 * usual(random);
    for (double& g : grains.departure.more) g = usual(random);
    for (double& g : grains.departure.slower) g = 0.15 * usual(random);
    return grains;
}

TEST(GrainDeparture, MoreLightOfEitherColourNeverMakesFewerGrainsDevelopable) {
    std::mt19937 random(11);
    for (int i = 0; i < 100; ++i) {
        const GrainPopulation grains(random_grains(random));
        for (const double other : {0.0, 0.01, 0.3, 4.0}) {
            double of_blue = 0, of_green = 0;
            for (double log_h = -2; log_h < 2; log_h += 0.05) {
                const double h = std::pow(10.0, log_h);
                const double blue = grains.developable({h, other}, 0),
                             green = grains.developable({other, h}, 0);
                EXPECT_GE(blue, of_blue - kRipple);
                EXPECT_GE(green, of_green - kRipple);
                EXPECT_LE(std::max(blue, green), 1 + kRipple);
                of_blue = blue, of_green = green;
            }
        }
    }
}

TEST(GrainDeparture, TheTableSaysWhatThePopulationSays) {
    constexpr double kTable = 1e-5;  // as ShareTable promises
    std::mt19937 random(12);
    for (int i = 0; i < 20; ++i) {
        const Grains grains = random_grains(random);
        const GrainPopulation full(grains), quick(grains, std::make_shared<const ShareTable>(grains));
        for (double log_h = -2; log_h < 2; log_h += 0.07) {
            const double h = std::pow(10.0, log_h);
            EXPECT_NEAR(quick.developable({h, 0.5 * h}, 0), full.developable({h, 0.5 * h}, 0), kTable);
        }
    }
}

TEST(GrainDeparture, QuantilesUndoTheMap) {
    std::mt19937 random(13);
    for (int i = 0; i < 50; ++i) {
        const Grains grains = random_grains(random);
        for (const double share : {0.01, 0.2, 0.5, 0.9, 0.99}) {
            const double z = grain_probit(grain_quantile(share, grains), grains);
            EXPECT_NEAR(0.5 * std::erfc(-z / std::sqrt(2.0)), share, 1e-10);
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
