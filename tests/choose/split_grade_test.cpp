// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One exposure as two, and the longest flash.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "choose/split_grade.hpp"
#include "choose/starting_point.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;

// Blue and green light are what the emulsion law knows of exposures: the same sums give the same curve.
TEST(SplitGrade, PairPrintsAsTheSingleExposureDoes) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    for (const double grade : {0.5, 2.0, 3.5}) {
        const auto pair = split_exposures(pack, paper, grade, {20});
        ASSERT_TRUE(pair);
        PrintSteps single, split;
        single.develop = split.develop = {0, 90, 20};
        single.exposures = {{filter_for(pack, paper, grade), {20}}};
        split.exposures = {{filter_for(pack, paper, pair->soft_grade), pair->soft},
                           {filter_for(pack, paper, pair->hard_grade), pair->hard}};
        const PrintModel one(paper, pack.darkroom.enlarger, single, 0.1),
            two(paper, pack.darkroom.enlarger, split, 0.1);
        for (double d = 0; d <= 1.6; d += 0.1)
            EXPECT_NEAR(one.patch({d}).density.value, two.patch({d}).density.value, 1e-9);
    }
    const auto soft = split_exposures(pack, paper, 0, {20});
    ASSERT_TRUE(soft);
    EXPECT_NEAR(soft->soft.value, 20, 1e-6);
    EXPECT_NEAR(soft->hard.value, 0, 1e-6);
}

TEST(Flash, LongestFlashLeavesTheBorderClean) {
    const Pack pack = fogged_pack(0.3);
    const PaperModel paper = paper_model(pack);
    PrintSteps steps;
    steps.develop = {10, 60, 20};
    const Seconds flash = longest_flash(pack, paper, 1, steps.develop);
    steps.flashes = {{filter_for(pack, paper, 1), flash}};
    const PrintModel print(paper, pack.darkroom.enlarger, steps, 0);
    EXPECT_NEAR(print.patch({4}).density.value - print.border().density.value, 0.01, 0.001);
}

}  // namespace
}  // namespace fogproof::tests
