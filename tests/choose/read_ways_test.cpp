// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far a way of developing lies from those that were read, and what that does to what is told of it.
#include <gtest/gtest.h>

#include "choose/read_ways.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

Pack read_at_20_ml() {
    Pack pack = examples::fogged_pack(0.35);
    // A fog slip without exposure says nothing of the image's speed.
    pack.readings = {"exposure_s,restrainer_ml_l,develop_s,density\n0,0,90,0.43\n5,20,90,0.9\n9,20,90,1.3\n",
                     "readings"};
    return pack;
}

}  // namespace

TEST(ReadWays, DistanceIsCountedInDoublingsOfDoseAndTime) {
    const ReadWays read(read_at_20_ml());
    EXPECT_EQ(read.doublings_from(20, 90), 0);
    EXPECT_NEAR(read.doublings_from(20, 180), 1, 1e-9);
    EXPECT_NEAR(read.doublings_from(45, 90), 1, 1e-9) << "5 ml/L are added to a dose";
    EXPECT_EQ(read.doublings_from(0, 20), 2) << "no more than two are counted";
    EXPECT_EQ(ReadWays(examples::fogged_pack(0.35)).doublings_from(30, 60), 0);
}

TEST(ReadWays, SecondsOfAnUnreadDoseAreKnownLess) {
    const auto reach = [](bool with_readings) {
        Pack pack = read_at_20_ml();
        pack.knowledge["speed.log_seconds"] = {Origin::measured, 0.02};
        if (!with_readings) pack.readings = {};
        const Printing printing(pack, examples::ordinary_frame());
        SearchBounds bounds = usual_bounds(printing);
        bounds.restrainers = {0};
        bounds.develop_s = {90};
        bounds.softest = bounds.hardest = 2;
        bounds.most_clearing = 0;
        const Interval seconds = starting_points(printing, as_fresh(printing), bounds).best.exposure_s;
        return seconds.high / seconds.value;
    };
    EXPECT_GT(reach(true), 1.1 * reach(false)) << "no restrainer is two doublings from 20 ml/L";
}

}  // namespace fogproof::tests
