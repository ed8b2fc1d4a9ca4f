// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The moment to pull, and where on the picture a strip tells most.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "choose/pull.hpp"
#include "choose/starting_point.hpp"
#include "choose/strip_place.hpp"
#include "choose/wanted.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

// f-stop printing: equal steps of exposure are equal factors (quarter stop 1.189, unblinkingeye.com).
TEST(TestStrip, CoversTheIntervalInEqualStops) {
    const TestStrip strip = test_strip({20, 14, 28.5});
    EXPECT_GE(strip.exposures.back().value, 28.5);
    EXPECT_LE(strip.exposures.front().value, 14.1);
    EXPECT_LE(strip.exposures.size(), 7u);
    for (std::size_t i = 1; i < strip.exposures.size(); ++i)
        EXPECT_NEAR(strip.exposures[i].value / strip.exposures[i - 1].value, std::exp2(strip.step_stops),
                    1e-12);
    EXPECT_NEAR(strip.exposures[strip.exposures.size() / 2].value, 20, 1e-12);
    EXPECT_EQ(test_strip({20, 19.8, 20.2}).exposures.size(), 7u) << "further bands cost no paper";
    EXPECT_EQ(test_strip({20, 1, 400}).step_stops, 1.0) << "seven bands are all a sheet holds";
}

TEST(TestStrip, LiesWhereTonesRangeWidest) {
    // Flat everywhere but for a column at 60 to 75 % of the width.
    std::vector<NegativeDensity> picture;
    for (int y = 0; y < 60; ++y)
        for (int x = 0; x < 100; ++x) picture.push_back({x >= 60 && x < 75 ? 0.2 + y * 0.02 : 0.7});
    const TestStripPlace place = strip_place(100, 60, picture);
    EXPECT_TRUE(place.upright);
    EXPECT_NEAR(place.from, 0.6, 1e-9);
}

TEST(Pull, SomethingInThePictureStillChangesWhenTheBorderHasStopped) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    SearchBounds bounds = usual_bounds(printing);
    bounds.restrainers = {0};
    const StartingPoints points = starting_points(printing, as_fresh(printing), bounds);
    const auto pull = moment_to_pull(printing, points.best);
    ASSERT_TRUE(pull);
    EXPECT_LT(pull->bleach_s.low, pull->bleach_s.value);
    EXPECT_LT(pull->bleach_s.value, pull->bleach_s.high);
    double most = 0;
    for (double d = 0.15; d < 1.3; d += 0.05) most = std::max(most, pull->gain(d));
    EXPECT_GT(most, 1.25 * pull->border_gain);
    EXPECT_FALSE(moment_to_pull(printing, *points.unbleached));
}

TEST(Pull, TellingSquareIsTheEvenOneThatChangesMost) {
    const Pull pull{{60, 40, 90}, MonotoneCurve({0, 0.5, 1, 1.5}, {1, 8, 2, 1}), 1, 1};
    std::vector<NegativeDensity> picture(200 * 100, NegativeDensity{1.4});
    for (int y = 40; y < 60; ++y)
        for (int x = 100; x < 120; ++x) picture[std::size_t(y * 200 + x)] = {0.5};
    const TellingPlace place = telling_place(pull, 200, 100, picture);
    EXPECT_NEAR(place.left, 0.5, 1e-9);
    EXPECT_NEAR(place.bottom, 0.6, 1e-9);
    EXPECT_NEAR(place.gain, 8, 1e-9);
}

}  // namespace
}  // namespace fogproof::tests
