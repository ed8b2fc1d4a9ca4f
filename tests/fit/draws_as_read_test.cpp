// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Draws of a fitted pack still show what was read of it, however its numbers bend together.
#include "fit/draws_as_read.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "fit/predictor.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "pack/doubted.hpp"
#include "support/examples.hpp"
#include "support/foreign_darkroom.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr std::size_t kDraws = 48;

// Strips at one dose of restrainer alone: what it costs in speed and how fast the paper is without it make up
// for each other, and both stay wide open.
PackFit fit_at_one_dose(unsigned seed) {
    foreign::Paper paper(seed, foreign::Darkroom::first);
    foreign::Densitometer densitometer(paper, seed, 0.01);
    std::vector<Reading> readings;
    for (int i = 0; i < 2; ++i) readings.push_back(densitometer.read("fixed", {0, 0, 2, 0, 0, 0}));
    for (const double dose : {0.0, 20.0})
        for (int i = 0; i < 2; ++i) readings.push_back(densitometer.read("fog", {0, 0, 2, dose, 90, 0}));
    densitometer.read_strip(readings, "soft", {paper.black_seconds(2, 20), 0, 2, 20, 90, 0});
    densitometer.read_strip(readings, "hard", {paper.black_seconds(4, 20), 0, 4, 20, 90, 0});
    return fitted_pack(Pack{}, readings, "foreign");
}

// Mean over the readings of how far draws lie from the pack, rms, over what is told of it.
double spread_over_told(const PackFit& fit, const std::vector<pack::PackDraw>& draws) {
    Predictor predictor(fit.pack, fit.readings);
    const auto middle = predictor.densities(fit.pack);
    const pack::Doubted<std::vector<double>> asked(
        fit.pack, [&](const Pack& pack) { return predictor.densities(pack, true); });
    std::vector<double> squares(middle.size());
    for (const auto& draw : draws) {
        const auto shown = predictor.densities(draw.pack);
        for (std::size_t i = 0; i < shown.size(); ++i)
            squares[i] += std::pow(shown[i] - middle[i], 2) / double(draws.size());
    }
    double drawn = 0, expected = 0;
    for (std::size_t i = 0; i < squares.size(); ++i) {
        drawn += squares[i];
        expected += std::pow(asked.deviation([i](const auto& shown) { return shown[i]; }), 2);
    }
    return std::sqrt(drawn / expected);
}

}  // namespace

TEST(DrawsAsRead, ShowWhatWasReadAsCloselyAsIsTold) {
    double straight = 0;
    for (const unsigned seed : {1u, 2u, 3u}) {
        const PackFit fit = fit_at_one_dose(seed);
        straight += spread_over_told(fit, pack::draws_of(fit.pack, kDraws)) / 3;
        const double as_read = spread_over_told(fit, draws_as_read(fit.pack, kDraws));
        EXPECT_GT(as_read, 0.6) << seed;
        EXPECT_LT(as_read, 1.7) << seed;
    }
    EXPECT_GT(straight, 2.5) << "straight lines alone lead away from what was read";
}

TEST(DrawsAsRead, OfAPackThatWasNeverFittedAreItsDraws) {
    const Pack pack = examples::fogged_pack(0.35);
    const auto drawn = pack::draws_of(pack, 8), as_read = draws_as_read(pack, 8);
    ASSERT_EQ(as_read.size(), drawn.size());
    for (std::size_t i = 0; i < drawn.size(); ++i) EXPECT_EQ(as_read[i].pack, drawn[i].pack);
}

}  // namespace fogproof::tests
