// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Light of a hand on squares that are drawn here, so that what is true is known; no published source.
#include "reading/handwork.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(Handwork, SquaresAreExplainedWhereTheFalloffComesToTheEndOfItsRange) {
    // A wide, soft dodge looks like light that rises to the corners, which no enlarger has. Curve and light
    // explain it all the same, to what the squares scatter by; a half more for what the grid is too coarse
    // for.
    constexpr int kColumns = 180, kRows = 130;
    constexpr double kScatter = 0.006;
    std::mt19937 random(7);
    std::normal_distribution<double> noise(0, kScatter);
    const double half = std::hypot(kColumns, kRows) / 2;
    std::vector<reading::ToneSquare> squares;
    for (int row = 0; row < kRows; row += 3)
        for (int column = 0; column < kColumns; column += 3) {
            const double u = (column + 0.5 - kColumns / 2.0) / half, v = (row + 0.5 - kRows / 2.0) / half,
                         squared = u * u + v * v;
            const double film = 0.6 + 0.3 * std::sin(column / 5.0) * std::sin(row / 7.0) +
                                0.25 * std::sin((column + 2 * row) / 23.0);
            const double held_back = 0.3 / (1 + std::exp((std::sqrt(squared) / 0.35 - 1) / 0.3));
            const double density = 0.1 + 1.6 / (1 + std::exp(6 * (film + held_back - 0.7)));
            squares.push_back({column, row, squared, film, density + noise(random)});
        }
    const auto work = reading::handwork_on(squares, kColumns, kRows, reading::kUsualFalloff);
    EXPECT_DOUBLE_EQ(work.falloff, reading::kLeastFalloff);
    EXPECT_LT(work.scatter, 1.5 * kScatter);
}

}  // namespace
}  // namespace fogproof::tests
