// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips whose steps cannot all be told apart: none is shifted without a word. Papers merge their last bands
// in black, fog hides the first (common practice, no source); bands made by hand are uneven.
#include "reading/strip_doubts.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/read_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

class StripDoubts : public Reads {
  protected:
    static StripScan strip(std::vector<double> densities, std::vector<double> lengths = {}) {
        StripScan scan = plain_scan(std::move(densities));
        scan.strips[0].lengths = std::move(lengths);
        return scan;
    }
    Remarks said_of(const StripScan& scan, int told) {
        const auto result = read(scan.linear(), request_for(scan, told));
        if (result.strips.size() != 1) {
            ADD_FAILURE() << result.strips.size() << " strips";
            return {};
        }
        StripLabels labels;
        labels.common.strip = "test";
        for (int i = 0; i < told; ++i) labels.exposures.push_back(2 << i);
        return strip_doubts(result.strips[0], labels);
    }
};

TEST_F(StripDoubts, BandsMergedInBlackBesideALongLightBandAreRefused) {
    for (const std::vector<double>& lengths : {std::vector<double>{0.7, 0.7, 1, 1, 1, 2},
                                               {0.4, 1, 1, 1, 1, 2},
                                               {0.6, 0.8, 1, 1, 1, 1.9},
                                               {0.8, 0.8, 1, 1, 1, 1.75}}) {
        const StripScan scan = strip({1.73, 1.73, 1.59, 0.97, 0.58, 0.46}, lengths);
        EXPECT_THAT(
            refusal(scan.linear(), request_for(scan, 6)),
            AllOf(HasSubstr("5 steps can be told apart"), HasSubstr("leaves open which 6 are meant")));
        EXPECT_THAT(said_of(scan, 5).warnings, IsEmpty()) << "one of two bands that look alike is enough";
    }
}

TEST_F(StripDoubts, BandsMergedInFogBesideALongDarkBandAreRefused) {
    const StripScan scan = strip({1.73, 1.5, 1.1, 0.7, 0.42, 0.42}, {1.75, 1, 1, 1, 0.75, 0.75});
    EXPECT_THAT(refusal(scan.linear(), request_for(scan, 6)), HasSubstr("leaves open which 6 are meant"));
}

TEST_F(StripDoubts, StepsWithoutAnEdgeBetweenThemAreNamedWithTheirSeconds) {
    const auto named = HasSubstr(
        "strip test: steps 5 and 6 (4 s, 2 s) cannot be told apart; one even stretch was "
        "divided by length");
    const Remarks plain = said_of(strip({1.73, 1.4, 0.97, 0.58, 0.46}, {1, 1, 1, 1, 1.75}), 6);
    EXPECT_THAT(plain.notes, Contains(named));
    EXPECT_THAT(plain.warnings, IsEmpty());
    // Two bands may have merged in the longer black as well.
    const Remarks said = said_of(strip({1.73, 1.4, 0.97, 0.58, 0.46}, {1.25, 1, 1, 1, 1.75}), 6);
    EXPECT_THAT(said.warnings, ElementsAre(AllOf(named, HasSubstr("at the other end merged instead"))));
}

TEST_F(StripDoubts, StepsOfAPrintedWedgeAreDividedWithANote) {
    auto densities = printed_wedge(14, 0.15, 0.15, 1.9, 4, 1.0);
    densities.insert(densities.begin(), 4, 1.93);
    densities.insert(densities.end(), 3, 0.15);
    const auto scan = strip(densities);
    const auto result = read(scan.linear(), request_for(scan, 21));
    ASSERT_THAT(result.strips, SizeIs(1));
    StripLabels labels;
    labels.wedge = StepWedge{0.05, 0.15, 21};
    const Remarks said = strip_doubts(result.strips[0], labels);
    EXPECT_THAT(said.warnings, IsEmpty());
    EXPECT_THAT(said.notes, Contains(HasSubstr("cannot be told apart")));
}

TEST_F(StripDoubts, BlackLeftBeyondTheDarkestStepIsAskedAbout) {
    const StripScan scan = strip({1.73, 1.73, 1.4, 0.9, 0.6, 0.42});
    EXPECT_THAT(said_of(scan, 5).warnings,
                ElementsAre(HasSubstr("as much paper as 1 step is left beyond the darkest")));
    const StripScan border = strip({1.73, 1.4, 0.9, 0.6, 0.42, 0.42});
    EXPECT_THAT(said_of(border, 5).warnings, IsEmpty()) << "unexposed paper is left over as a border";
}

TEST_F(StripDoubts, BandsWithEdgesOfTheirOwnAreReadAsToldHoweverLongTheLastIs) {
    const StripScan scan = strip({1.73, 1.5, 1.1, 0.75, 0.5, 0.42}, {1.73, 1, 1, 1, 1, 0.585});
    const auto result = read(scan.linear(), request_for(scan, 6));
    ASSERT_THAT(result.strips, SizeIs(1));
    expect_densities(result.strips[0].steps, scan.strips[0].densities);
}

TEST_F(StripDoubts, RightStripsAreLeftInPeace) {
    for (const std::vector<double>& lengths : {std::vector<double>{},
                                               {1.05, 0.95, 1, 1.1, 0.9, 1},
                                               {0.8, 1, 1, 1, 1, 1.7},
                                               {1.4, 1, 0.95, 1, 1.05, 1.5}}) {
        const Remarks said = said_of(strip({1.73, 1.4, 1.1, 0.75, 0.5, 0.42}, lengths), 6);
        EXPECT_THAT(said.warnings, IsEmpty());
        EXPECT_THAT(said.notes, IsEmpty());
    }
}

// Of the two halves the bleached one is far from the card, their mean is not.
TEST_F(StripDoubts, BlackCardBesideAStripInHalvesIsNoStep) {
    StripScan scan = strip({1.5, 1.3, 0.95, 0.65, 0.48});
    scan.lid = 1.55, scan.fall_off = 0;
    scan.strips[0].bleached = 0.65;
    StripRequest request = request_for(scan, 6);
    request.halves = true;
    EXPECT_THAT(refusal(scan.linear(), request), HasSubstr("5 steps found"));
    request.steps = 5;
    EXPECT_THAT(read(scan.linear(), request).strips, SizeIs(1));
}

TEST_F(StripDoubts, StepsThatLookLikeTheLidAreNamed) {
    auto densities = printed_wedge(9, 0.2, 0.07, 1.9, 4, 0.8);
    densities.insert(densities.end(), 3, 0.065);
    EXPECT_THAT(said_of(strip(densities), 12).warnings, Contains(HasSubstr("look like the background")));
}

// On black card as on a white lid: no paper is darker than about 2.3 (common practice, no source).
TEST_F(StripDoubts, StepsDarkerThanPaperTellOfAlteredLevelsOnCardToo) {
    for (const double black : {2.2, 2.6}) {
        StripScan scan = strip({black, 1.4, 0.9, 0.6, 0.4});
        scan.lid = 1.5, scan.fall_off = 0, scan.noise = 0.0003;
        const auto warnings = read(scan.linear(), request_for(scan, 5)).warnings;
        if (black > 2.4)
            EXPECT_THAT(warnings, ElementsAre(HasSubstr("darker than any paper")));
        else
            EXPECT_THAT(warnings, IsEmpty());
    }
}

}  // namespace
}  // namespace fogproof::tests
