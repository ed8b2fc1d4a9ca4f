// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Tones of prints whose even ground is drawn here, so that what is true is known; no published source. The
// paper is a logistic curve, which is no law of the program's.
#include "reading/print_curve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using reading::EvenGround;
using reading::print_curve;
using reading::PrintTone;

constexpr int kColumns = 180, kRows = 130;

double paper_density(double over_paper) {
    return 0.1 + 1.6 / (1 + std::exp(6 * (over_paper - 0.6)));
}

// Every tone lies all over the frame, in waves; light is log10 at a place of the frame.
EvenGround drawn_ground(double falloff, const auto& light) {
    std::mt19937 random(5);
    std::normal_distribution<double> noise(0, 0.004);
    const double half = std::hypot(kColumns, kRows) / 2;
    EvenGround ground;
    ground.side = 8, ground.columns = kColumns, ground.rows = kRows;
    ground.all = std::size_t(kColumns) * kRows;
    for (int row = 2; row < kRows - 2; row += 3)
        for (int column = 2; column < kColumns - 2; column += 3) {
            const registration::FramePlace place{(column + 0.5 - kColumns / 2.0) / half,
                                                 (row + 0.5 - kRows / 2.0) / half};
            const double film = 0.6 + 0.3 * std::sin(column / 5.0) * std::sin(row / 7.0) +
                                0.25 * std::sin((column + 2 * row) / 23.0);
            const double over = film + falloff * place.squared_radius() - light(place);
            ground.squares.push_back(
                {column, row, place, film, paper_density(over) + noise(random), false, {0.01, 0.01}});
        }
    return ground;
}

// Held back by so much light within a circle of half diagonals, whose rim is as soft as told.
auto dodge(double held_back, double radius, double soft) {
    return [=](registration::FramePlace place) {
        const double far = std::hypot(place.u - 0.1, place.v + 0.05) / radius;
        return -held_back / (1 + std::exp((far - 1) / soft));
    };
}

double off_by(const PrintTone& tone) {
    return std::abs(tone.density - paper_density(tone.over_paper));
}

TEST(PrintCurve, AToneUnderAHardDodgeIsReadWhereNothingWasDodged) {
    const auto curve = print_curve(drawn_ground(0.03, dodge(0.2, 0.3, 0.05)), {});
    ASSERT_TRUE(curve);
    for (const PrintTone& tone : curve->tones) {
        EXPECT_LT(off_by(tone), 0.02) << tone.over_paper;
        EXPECT_LT(tone.error, 0.02) << tone.over_paper;
    }
}

TEST(PrintCurve, ADodgeOverMostOfThePrintLeavesItsTonesInDoubt) {
    // Hardly any ground is left that shows what the enlarger alone gave, and tones are off by a tenth. A
    // doubt that holds for all of them is told of each: three deviations.
    const auto curve = print_curve(drawn_ground(0.02, dodge(0.24, 0.45, 0.4)), {});
    ASSERT_TRUE(curve);
    for (const PrintTone& tone : curve->tones) EXPECT_LT(off_by(tone), 3 * tone.error) << tone.over_paper;
}

}  // namespace
}  // namespace fogproof::tests
