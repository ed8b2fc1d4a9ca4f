// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Labels and densities that are hardly meant. Common practice, no source: paper that was only fixed reads
// 0.04 to 0.12, and a densitometer that is set to zero on it takes that off every reading.
#include "fit/label_doubts.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Reading slip_of(double density, double develop_s) {
    Reading reading;
    reading.strip = "slip";
    reading.exposure_s = 0;
    reading.develop_s = develop_s;
    reading.density = density;
    return reading;
}

TEST(LabelDoubts, DensitiesCountedFromThePapersWhiteAreAskedAbout) {
    const std::vector<Reading> from_white{slip_of(0, 0), slip_of(-0.01, 0), slip_of(0.34, 90)};
    EXPECT_THAT(label_doubts(from_white), ElementsAre(HasSubstr("counted from the paper's own white")));
    const std::vector<Reading> absolute{slip_of(0.05, 0), slip_of(0.04, 0), slip_of(0.02, 90)};
    EXPECT_THAT(label_doubts(absolute), IsEmpty());
}

TEST(LabelDoubts, RedevelopmentWithoutABleachIsAskedAbout) {
    Reading reading = slip_of(0.4, 90);
    reading.redevelop_s = 20;
    EXPECT_THAT(label_doubts(std::vector{reading}),
                Contains(HasSubstr("strip \"slip\" was redeveloped for 20 s but not bleached")));
    reading.bleach_s = 60;
    EXPECT_THAT(label_doubts(std::vector{reading}), IsEmpty());
}

}  // namespace
}  // namespace fogproof::tests
