// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was done to a strip, told by its owner.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <lcms2.h>
#include <sys/wait.h>
#include <array>
#include <fstream>
#include <functional>
#include <sstream>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/readings.hpp"
#include "reading/cgats.hpp"
#include "reading/strip_labels.hpp"
#include "reading/strip_reading.hpp"
#include "scan/reflection_scan.hpp"
#include "support/program.hpp"
#include "support/read_strips.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {
namespace {

using ::testing::SizeIs;

StripReading strip_of(const std::vector<double>& densities) {
    StripReading strip{{}, {}, {}, int(densities.size())};
    for (std::size_t i = 0; i < densities.size(); ++i)
        strip.steps.push_back({int(i) + 1, {densities[i]}, 0.01, 100, {}});
    return strip;
}

TEST(StripLabels, TheUsualWedgeRunsFromTheDarkestStepOn) {
    // 0.05 to 3.05 in 21 steps: US Navy training manual NAVEDTRA 14209, p. 10-40.
    StripLabels labels;
    labels.wedge = StepWedge{};
    labels.common.strip = "A", labels.common.filter = 2;
    const auto rows = labelled(strip_of(printed_wedge(21, 0.15, 0.1, 2.0)), labels);
    ASSERT_THAT(rows, SizeIs(21));
    EXPECT_NEAR(rows.front().wedge_density.value(), 0.05, kRounding);
    EXPECT_NEAR(rows.back().wedge_density.value(), 3.05, kRounding);
    EXPECT_GT(rows.front().density, rows.back().density);
    EXPECT_EQ(rows[7].filter, 2);
}

TEST(StripLabels, TheLongestExposureIsTheDarkestBandInWhateverOrderTheyAreTold) {
    StripLabels labels;
    labels.exposures = {4, 2, 16, 8};
    const auto rows = labelled(strip_of({1.6, 1.1, 0.6, 0.2}), labels);
    for (const auto& [row, seconds] : {std::pair{0, 16.0}, {1, 8.0}, {2, 4.0}, {3, 2.0}})
        EXPECT_EQ(rows[std::size_t(row)].exposure_s, seconds);
}

TEST(StripLabels, HalvesBecomeTwoStripsOfOnePaper) {
    StripLabels labels;
    labels.common.strip = "B", labels.common.bleach_s = 40, labels.common.bleach_parts = 50;
    StripReading strip = strip_of({1.6, 0.6});
    strip.bleached = strip_of({1.2, 0.4}).steps;
    const auto rows = labelled(strip, labels);
    ASSERT_THAT(rows, SizeIs(4));
    EXPECT_EQ(rows[0].strip, "B-before");
    EXPECT_EQ(rows[0].bleach_s, 0);
    EXPECT_EQ(rows[0].bleach_parts, std::nullopt);
    EXPECT_EQ(rows[2].strip, "B-bleached");
    EXPECT_EQ(rows[2].bleach_s, 40);
    EXPECT_EQ(rows[2].bleach_parts, 50);
}

TEST(StripLabels, ReadingsOfAnInstrumentMayRunEitherWayButNotBothWays) {
    StripLabels labels;
    labels.wedge = StepWedge{0.05, 0.3, 3};
    std::vector<Reading> rows(3);
    rows[0].density = 0.2, rows[1].density = 0.9, rows[2].density = 1.7;
    const auto up = with_steps(rows, labels, "spots.txt");
    EXPECT_NEAR(up[0].wedge_density.value(), 0.65, kRounding);
    EXPECT_NEAR(up[2].wedge_density.value(), 0.05, kRounding);
    rows[2].density = 0.5;
    EXPECT_THROW(static_cast<void>(with_steps(rows, labels, "spots.txt")), Error);
    rows.pop_back();
    EXPECT_THROW(static_cast<void>(with_steps(rows, labels, "spots.txt")), Error);
}

}  // namespace
}  // namespace fogproof::tests
