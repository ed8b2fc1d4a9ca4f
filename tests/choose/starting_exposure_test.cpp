// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Full black, anchors, and what recipes without either are answered.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "choose/black_time.hpp"
#include "choose/printing.hpp"
#include "choose/starting_exposure.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"
#include "support/examples.hpp"
#include "support/recipes.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

TEST(Choose, FullBlackIsReachedInTheShortestTimeForIt) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    for (const double grade : {1.0, 3.0}) {
        const Seconds time = shortest_black(pack, paper, grade);
        PrintSteps steps;
        steps.exposures = {{filter_for(pack, paper, grade), time}};
        steps.develop = {0, 90, 20};
        const PrintModel print(paper, pack.darkroom.enlarger, steps, 1);
        EXPECT_NEAR(print.patch({0}).density.value, pack.black_density - 0.04, 0.005);
    }
}

TEST(Choose, BlackTimeAnchorsAPack) {
    Pack pack = fogged_pack(0.3);
    pack.darkroom.anchored = false;
    const Pack anchored = anchored_by_black(pack, {Seconds{9}});
    EXPECT_TRUE(anchored.darkroom.anchored);
    EXPECT_NEAR(shortest_black(anchored, paper_model(anchored), 2).value, 9, 1e-6);
}

// Two printers who judge by eye agree on the shortest black within a sixth to a half of a stop; common
// practice, no source.
TEST(Choose, AnEyeLeavesABlackTimeInDoubt) {
    Pack pack = fogged_pack(0.3);
    pack.darkroom.anchored = false;
    const Knowledge known = anchored_by_black(pack, {Seconds{9}}).known("speed.log_seconds");
    EXPECT_EQ(known.origin, Origin::given);
    ASSERT_TRUE(known.deviation);
    EXPECT_GT(*known.deviation, 0.05 / 2);
    EXPECT_LT(*known.deviation, 0.15);
}

TEST(Choose, SecondsWithoutAnAnchorAreRefusedAndStopsAreNot) {
    Pack pack = fogged_pack(0.3);
    pack.darkroom.anchored = false;
    const Printing printing(pack, ordinary_frame());
    Recipe recipe = recipe_of(2, Seconds{0});
    EXPECT_NO_THROW(static_cast<void>(printing.proof(recipe)));
    recipe.exposures[0].amount = Seconds{12};
    EXPECT_THROW(static_cast<void>(printing.proof(recipe)), Error);
}

TEST(Choose, PercentOfClearingWithoutFogIsRefused) {
    const Printing printing(fogged_pack(0.0), ordinary_frame());
    try {
        static_cast<void>(printing.proof(recipe_of(2, ClearingPercent{50})));
        FAIL() << "there is nothing to clear";
    } catch (const Error& error) {
        EXPECT_EQ(error.fault(), Fault::config);
    }
}

}  // namespace
}  // namespace fogproof::tests
