// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The rungs of the ladder by their bleach times.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "proof/start_ladder.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::ElementsAre;

struct Ladder : testing::Test {
    Ladder() : printing(anchored(), examples::ordinary_frame()) {
        point.recipe.exposures = {{2.0, Stops{0}}};
        point.found.grade = 2;
        point.exposure_s = {12, 6, 24};
        point.bleach_s = {40, 5, 300};
    }
    static Pack anchored() {
        Pack pack = examples::fogged_pack(0.35);
        pack.darkroom.anchored = true;
        return pack;
    }
    static std::vector<std::string> told(const GridRequest& request) {
        std::vector<std::string> words;
        for (const auto& value : request.across.values) words.push_back(value.told);
        return words;
    }
    Printing printing;
    StartingPoint point{};
};

TEST_F(Ladder, RunsFromHalfToDoubleTheToldTimeHoweverUnsureThatIs) {
    const GridRequest request = bleach_ladder(printing, point, "negative");
    EXPECT_THAT(told(request), ElementsAre("20s", "28s", "40s", "57s", "80s"));
    EXPECT_EQ(request.recommended, 2u);
}

TEST_F(Ladder, RunsOverTheTimesThatAreAskedForAndTheToldOne) {
    const GridRequest request = bleach_ladder(printing, point, "negative", {{120}, {10}, {40}});
    EXPECT_THAT(told(request), ElementsAre("10s", "40s", "120s"));
    EXPECT_EQ(request.recommended, 1u);
}

TEST_F(Ladder, TimesThatAreAskedForAreNotRounded) {
    const GridRequest request = bleach_ladder(printing, point, "negative", {{111}, {114}, {126.5}});
    EXPECT_THAT(told(request), ElementsAre("40s", "111s", "114s", "126.5s"));
}

}  // namespace
}  // namespace fogproof::tests
