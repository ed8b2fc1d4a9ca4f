// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far a way of developing lies from those that were read, and what that does to what is told of it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "base/words.hpp"
#include "choose/read_ways.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "support/examples.hpp"
#include "support/own_strips.hpp"
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

TEST(ReadWays, EachWayWithinTheBoundsIsOneToSearch) {
    Pack pack = examples::fogged_pack(0.35);
    pack.readings = {
        "exposure_s,filter,restrainer_ml_l,develop_s,density\n5,2,15,90,0.9\n9,2,15,90,1.3\n9,4,15,,1.1\n9,,"
        "0,60,1\n"
        "9,2,40,90,1\n9,2,15,120,1\n0,,0,90,0.43\n",
        "readings"};
    SearchBounds bounds;
    bounds.develop_s = {60, 90};
    const auto as_lines = [&] {
        std::vector<std::string> lines;
        for (const SearchBounds& one : ReadWays(pack).within(bounds)) {
            EXPECT_EQ(one.softest, one.hardest);
            lines.push_back(decimal(one.softest, 1) + " " + decimal(one.restrainers.at(0), 0) + " ml " +
                            decimal(one.develop_s.at(0), 0) + " s");
        }
        return lines;
    };
    EXPECT_THAT(as_lines(), testing::ElementsAre("2 0 ml 60 s", "2 15 ml 90 s", "4 15 ml 90 s"))
        << "grade 2 where no filter was named; neither 40 ml/L nor 120 s lies within";
    bounds.restrainers = {20};
    EXPECT_THAT(as_lines(), testing::IsEmpty()) << "decided otherwise";
    bounds.restrainers = {15};
    bounds.softest = 3;
    EXPECT_THAT(as_lines(), testing::ElementsAre("4 15 ml 90 s"));
    bounds.develop_s = {};
    EXPECT_THAT(as_lines(), testing::ElementsAre("4 15 ml 90 s")) << "the nominal time";
}

// A printer who always takes 15 ml/L is told so, though no table of usual doses has it.
TEST(ReadWays, BathsThatWereReadAreToldWhereNothingIsWonByOthers) {
    std::vector<own::Strip> strips = own::slips();
    for (const own::Strip& strip :
         {own::Strip{"soft", 15, 40, 2, 15}, own::Strip{"bleached", 15, 40, 2, 15, 90, 40},
          own::Strip{"hard", 15, 60, 3, 15}})
        strips.push_back(strip);
    const auto rows =
        own::read(own::old_paper(Contrast::variable), own::patches_of(strips, Contrast::variable), 0.01, 3);
    const Pack pack = fitted_pack(own::nothing_known(Contrast::variable), rows, "strips").pack;
    const Printing printing(pack, examples::ordinary_frame());
    const StartingPoint best = starting_points(printing, as_fresh(printing), usual_bounds(printing)).best;
    EXPECT_EQ(best.found.restrainer_ml_l, 15) << best.found.grade << " " << best.lightness_error.value;
}

}  // namespace fogproof::tests
