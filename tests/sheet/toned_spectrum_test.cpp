// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A measured toned patch decides the colour of toned silver: some layer density of it shows that very Lab.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "fogproof/sheet/sheet.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Nearest that any density of toned silver comes to a colour.
double nearest(const Sheet& sheet, const Lab& wanted, Toner toner) {
    double least = 1e9;
    for (double density = 0.001; density < 2; density *= 1.002) {
        const Lab seen = lab(xyz_under_d50(sheet.reflectance({{}, {}, {}, {density}, toner})));
        least = std::min(least, std::hypot(seen.l - wanted.l, seen.a - wanted.a, seen.b - wanted.b));
    }
    return least;
}

}  // namespace

TEST(TonedPatch, IsShownAsItWasMeasured) {
    constexpr double kSteps = 0.1;  // of the densities tried, in Lab
    for (const Lab patch : {Lab{45, 7, 16}, Lab{60, 6, 22}, Lab{30, 2, -3}, Lab{70, 3, 8}, Lab{25, 9, 12}})
        for (const double cream : {-1.0, 6.0}) {
            const Sheet sheet({.white_b = cream, .sulphide = {1, 0, patch}, .selenium = {0, 0, patch}});
            EXPECT_LT(nearest(sheet, patch, Toner::sulphide), kSteps) << patch.l << " " << cream;
            EXPECT_LT(nearest(sheet, patch, Toner::selenium), kSteps) << patch.l << " " << cream;
        }
}

TEST(TonedPatch, OfNoColourThatTonedSilverCanHaveIsRefused) {
    for (const Lab patch : {Lab{45, -20, 0}, Lab{99, 0, 40}, Lab{40, 0, 60}}) {
        const std::string words = words_of_refusal([&] {
            static_cast<void>(Sheet({.thiourea = {1, 0, patch}}));
        });
        EXPECT_THAT(words, testing::HasSubstr("thiourea.patch")) << patch.l << " " << patch.b;
        EXPECT_THAT(words, testing::HasSubstr("measured dry under D50"));
    }
}

}  // namespace fogproof::tests
