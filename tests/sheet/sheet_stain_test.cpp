// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Stain of the bleach: a light cream on cleared whites (common practice, no source: "a hair darker and
// warmer"), and no more than that where a whole shadow was bleached away.
#include <gtest/gtest.h>

#include <cmath>

#include "fogproof/bleach/bleach.hpp"
#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/sheet/sheet.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Layer densities: of the fog that a bleach clears, and of a black.
constexpr double kFog = 0.1, kBlack = 0.8;

double yellow(const Sheet& sheet, const FinishedSilver& silver) {
    return lab(xyz_under_d50(sheet.reflectance(silver))).b;
}

}  // namespace

TEST(Stain, EmptiedShadowsAreAtMostTwiceAsStainedAsClearedWhites) {
    for (const double stain : {0.02, 0.04, 0.1}) {
        const Sheet sheet({.stain = stain});
        const double white = yellow(sheet, {}), cleared = yellow(sheet, {{}, {}, {kFog}}) - white;
        EXPECT_GT(cleared, 0);
        double last = 0;
        constexpr double kMost = 2.1;  // the law levels off at 2.06 times, and yellow goes with it
        for (double gone = 0.02; gone < 4; gone *= 1.2) {
            const double now = yellow(sheet, {{}, {}, {gone}}) - white;
            EXPECT_GE(now, last) << "more silver gone never stains less";
            EXPECT_LT(now, kMost * cleared) << "stain " << stain << ", gone " << gone;
            last = now;
        }
    }
}

TEST(Stain, IsBoundedAtAnyBleachAndRedevelopment) {
    const Sheet sheet({}), pure({.stain = 0});
    const double most = yellow(sheet, {{}, {}, {1e3}}) - yellow(pure, {{}, {}, {1e3}});
    for (const double silver : {kFog, 0.4, kBlack, 3.0})
        for (const double dose : {0.01, 0.1, 0.5, 2.0, 100.0})
            for (const double redevelop_s : {0.0, 3.0, 30.0, 600.0})
                for (const double recoverable : {0.0, 0.5, 1.0}) {
                    const BleachedSilver thin = bleached({{silver}}, BleachRate{}, dose);
                    const FinishedSilver print =
                        redeveloped(thin, {.recoverable = recoverable}, {redevelop_s});
                    EXPECT_LE(yellow(sheet, print) - yellow(pure, print), most + 1e-9)
                        << silver << " " << dose << " " << redevelop_s;
                }
    EXPECT_LT(most, 5) << "L*a*b*; a cream, no yellow";
}

TEST(Stain, QuickDensityKnowsTheSameStain) {
    constexpr double kQuick = 2e-5;  // D, as sheet.hpp promises
    const Sheet sheet({.stain = 0.1});
    for (const double gone : {0.05, 0.3, 2.0}) {
        const FinishedSilver print{{0.05}, {}, {gone}};
        EXPECT_NEAR(sheet.quick_density(print).value, visual_density(sheet.reflectance(print)).value, kQuick);
    }
}

}  // namespace fogproof::tests
