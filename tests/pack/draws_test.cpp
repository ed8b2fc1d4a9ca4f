// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs that a pack may be, held to the normal distribution they are drawn from.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "pack/draws.hpp"
#include "pack/schema.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// A pack that leaves nothing open but what a test says.
Pack certain_pack() {
    Pack pack = examples::fogged_pack(0.3);
    for (const auto& row : pack_numbers()) pack.knowledge[row.name()] = {Origin::given, 0.0};
    return pack;
}

double mean_of(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / double(values.size());
}

double product_of(const std::vector<double>& a, const std::vector<double>& b) {
    const double middle_a = mean_of(a), middle_b = mean_of(b);
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - middle_a) * (b[i] - middle_b);
    return sum / double(a.size());
}

std::vector<double> drawn(const std::vector<PackDraw>& draws, double (*number)(const Pack&)) {
    std::vector<double> values;
    for (const PackDraw& draw : draws) values.push_back(number(draw.pack));
    return values;
}

double black(const Pack& pack) {
    return pack.black_density;
}
double rate(const Pack& pack) {
    return std::log(pack.bleach.per_second);
}
double speed(const Pack& pack) {
    return pack.speed_log_s;
}

}  // namespace

// Quantiles of the normal distribution at 1/8 and 3/8: 1.15035 and 0.31864 (tables of the normal
// distribution, e.g. Abramowitz and Stegun 26.1, by interpolation). Four draws, scaled to a mean square of 1.
TEST(Draws, ScoresAreTheMiddlesOfEquallyLikelyParts) {
    Pack pack = certain_pack();
    pack.knowledge["paper.black"] = {Origin::measured, 0.02};
    auto values = drawn(draws_of(pack, 4), black);
    std::ranges::sort(values);
    const double scale = std::sqrt((1.15035 * 1.15035 + 0.31864 * 0.31864) / 2);
    const std::array scores{-1.15035, -0.31864, 0.31864, 1.15035};
    for (std::size_t i = 0; i < 4; ++i)
        EXPECT_NEAR((values[i] - pack.black_density) / 0.02, scores[i] / scale, 2e-5);
}

TEST(Draws, HaveTheDeviationsAndCorrelationsOfTheFit) {
    Pack pack = certain_pack();
    pack.knowledge["paper.black"] = {Origin::measured, 0.02};
    pack.knowledge["speed.log_seconds"] = {Origin::measured, 0.1};
    // A rate is doubted by a factor: 1 + deviation / value.
    pack.knowledge["bleach.per_second"] = {Origin::measured, pack.bleach.per_second};
    pack.fit.numbers = {{"paper.black", 0, {}}, {"speed.log_seconds", 0, {}}, {"bleach.per_second", 0, {}}};
    pack.fit.correlation = {0.8, -0.5, -0.2};
    const auto draws = draws_of(pack, 4000);
    const auto blacks = drawn(draws, black), speeds = drawn(draws, speed), rates = drawn(draws, rate);
    // Of 4000 draws a correlation errs by 0.016 at most, one standard deviation.
    constexpr double kFour = 4 * 0.016;
    EXPECT_NEAR(mean_of(blacks), pack.black_density, 0.02 / 60);
    EXPECT_NEAR(std::sqrt(product_of(blacks, blacks)), 0.02, 0.02 * kFour);
    EXPECT_NEAR(std::sqrt(product_of(speeds, speeds)), 0.1, 0.1 * kFour);
    EXPECT_NEAR(std::sqrt(product_of(rates, rates)), std::log(2.0), std::log(2.0) * kFour);
    EXPECT_NEAR(product_of(blacks, speeds) / (0.02 * 0.1), 0.8, kFour);
    EXPECT_NEAR(product_of(blacks, rates) / (0.02 * std::log(2.0)), -0.5, kFour);
    EXPECT_NEAR(product_of(speeds, rates) / (0.1 * std::log(2.0)), -0.2, kFour);
}

TEST(Draws, AreTheSameForEverybodyAndOthersInAnotherSet) {
    const Pack pack = examples::fogged_pack(0.3);
    const auto here = draws_of(pack, 8), there = draws_of(pack, 8), other = draws_of(pack, 8, 1);
    for (std::size_t i = 0; i < 8; ++i) {
        EXPECT_EQ(here[i].pack, there[i].pack);
        EXPECT_NE(here[i].pack, other[i].pack);
        EXPECT_LT(std::abs(here[i].between), 0.5);
    }
    // One number less in doubt leaves the draws of the others alone.
    Pack surer = pack;
    surer.knowledge["speed.log_seconds"] = {Origin::given, 0.0};
    EXPECT_EQ(drawn(draws_of(surer, 8), black), drawn(here, black));
}

TEST(Draws, NeverContradictThemselvesOrLeaveTheirRange) {
    // Black hardly over a blank that hardly anybody knows: most draws are impossible.
    Pack pack = examples::fogged_pack(0.5);
    pack.black_density = pack.sheet.white_density + 0.75;
    pack.knowledge["fog.blank"] = {Origin::measured, 0.4};
    pack.knowledge["paper.black"] = {Origin::measured, 0.3};
    const auto draws = draws_of(pack, 64);
    double least = 9, most = 0;
    for (const PackDraw& draw : draws) {
        const Pack& moved = draw.pack;
        EXPECT_NO_THROW(static_cast<void>(paper_model(moved)));
        for (const auto& row : pack_numbers()) {
            EXPECT_GE(row.of(moved), row.minimum) << row.name();
            EXPECT_LE(row.of(moved), row.maximum) << row.name();
        }
        least = std::min(least, moved.black_density);
        most = std::max(most, moved.black_density);
    }
    EXPECT_GT(most - least, 0.2) << "possible packs are as different as they may be";
}

TEST(Draws, LeaveTheSpeedAloneWhereNoSecondsAreKnown) {
    Pack pack = examples::fogged_pack(0.3);
    pack.darkroom.anchored = false;
    for (const PackDraw& draw : draws_of(pack, 8)) EXPECT_EQ(draw.pack.speed_log_s, pack.speed_log_s);
}

}  // namespace fogproof::tests
