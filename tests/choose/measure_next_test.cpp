// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one more strip or print would save, against cases whose answer is plain.
#include <gtest/gtest.h>

#include <algorithm>

#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "pack/schema.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

// The answer for a pack of which nothing is in doubt but what is named.
StartingPoints answer(std::initializer_list<std::pair<const char*, double>> doubts) {
    Pack pack = fogged_pack(0.35);
    for (const auto& row : pack_numbers()) pack.knowledge[row.name()] = {Origin::measured, 0.0};
    for (const auto& [name, deviation] : doubts) pack.knowledge[name] = {Origin::measured, deviation};
    const Printing printing(pack, ordinary_frame());
    Wanted wanted = as_fresh(printing);
    wanted.fresh = false;  // as a picture that stands
    return starting_points(printing, wanted, usual_bounds(printing));
}

const Offer& of_kind(const StartingPoints& points, Offer::Kind kind) {
    return *std::ranges::find(points.measure_next, kind, &Offer::kind);
}

}  // namespace

TEST(MeasureNext, SavesNothingWhereNothingIsInDoubt) {
    const StartingPoints points = answer({});
    for (const Offer& offer : points.measure_next)
        EXPECT_NEAR(offer.expected_then, points.best.lightness_error.value, 1e-6);
}

// Seconds that are known to a third of a stop cost much; one read strip settles them, and what is left is the
// distance on the paper as described.
TEST(MeasureNext, AStripOfTheNegativeSettlesItsSeconds) {
    const StartingPoints points = answer({{"speed.log_seconds", 0.1}});
    const double now = points.best.lightness_error.value, least = points.best.found.lightness_error;
    ASSERT_GT(now, least + 2);
    for (const auto kind : {Offer::Kind::strip, Offer::Kind::print, Offer::Kind::wedge}) {
        EXPECT_LT(of_kind(points, kind).expected_then, least + 0.3 * (now - least));
        EXPECT_GT(of_kind(points, kind).expected_then, 0.7 * least);
    }
}

// Only the half that is bleached tells how fast a bath works: without one nothing is learnt of it.
TEST(MeasureNext, HalvesTellHowThePaperBleaches) {
    const StartingPoints points = answer({{"bleach.per_second", 0.0015}});
    ASSERT_GT(points.best.bleach_s.value, 0);
    const Offer& print = of_kind(points, Offer::Kind::print);
    EXPECT_LT(print.expected_then, points.best.lightness_error.value - 0.3);
    EXPECT_GT(print.recipe.bleach.value, 0);
    EXPECT_NE(print.in_words(Pack{}).find("one half bleached"), std::string::npos);
}

TEST(MeasureNext, AWedgeIsNeverTheOnlyOfferAndTheBestStandsFirst) {
    const StartingPoints points = answer({{"speed.log_seconds", 0.05}, {"grains.spread", 0.02}});
    EXPECT_TRUE(std::ranges::is_sorted(points.measure_next, {}, &Offer::expected_then));
    EXPECT_EQ(of_kind(points, Offer::Kind::strip).sheets, 0.25);
    EXPECT_EQ(of_kind(points, Offer::Kind::print).sheets, 1);
}

}  // namespace fogproof::tests
