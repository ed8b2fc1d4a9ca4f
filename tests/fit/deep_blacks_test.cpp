// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Blacks deeper than the stated surface can show, and numbers on a box that are wrong. Light off the surface
// lies over every tone, so that a black is never deeper than -log10 of it; papers of our own laws, no
// published source.
#include "fit/deep_blacks.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::vector<Reading> strip_of(const Pack& truth) {
    return own::read(truth, own::patches_of({{"wedge", 21, 40}, {"blank"}}, truth.contrast), 0.005, 5);
}

TEST(DeepBlacks, TellThatTheSurfaceIsGlossierThanStated) {
    const Pack truth = own::old_paper(Contrast::variable);
    const auto readings = strip_of(truth);
    double darkest = 0;
    for (const Reading& reading : readings) darkest = std::max(darkest, reading.density);
    Pack matt = truth;
    matt.sheet.surface = 0.03;
    ASSERT_GT(darkest, -std::log10(matt.sheet.surface) + 0.1) << "no matt paper is so dark";
    const PackFit fit = fitted_pack(matt, readings, "strip.csv");
    EXPECT_THAT(fit.warnings, Contains(HasSubstr("too matt for blacks deeper than 1.52 D")));
    EXPECT_LT(fit.rms, 0.02);
    EXPECT_NEAR(fit.pack.black_density, truth.black_density, 0.06);
    EXPECT_THAT(fitted_pack(truth, readings, "strip.csv").warnings, Not(Contains(HasSubstr("too matt"))));
}

TEST(DeepBlacks, OfASinglePatchTellNothing) {
    Pack matt = own::old_paper(Contrast::variable);
    matt.sheet.surface = 0.03, matt.black_density = 1.4;
    std::vector<Reading> readings = strip_of(matt);
    readings.front().density = 2.1;
    EXPECT_FALSE(deepen_surface(matt, readings));
    EXPECT_EQ(matt.sheet.surface, 0.03);
}

// ISO R of the box's grade, 0, is 158 here, and the paper's is that of grade 3.
TEST(DeepBlacks, AWrongGradeOnTheBoxDoesNotHoldTheFitInAWrongPlace) {
    Pack truth = own::old_paper(Contrast::graded);
    truth.iso_range = 100;
    const auto readings = strip_of(truth);
    std::vector<double> ranges, blacks;
    for (const double box : {158.0, 130.0, 100.0, 80.0}) {
        Pack labelled = truth;
        labelled.iso_range = box;
        const PackFit fit = fitted_pack(labelled, readings, "strip.csv");
        ranges.push_back(fit.pack.iso_range), blacks.push_back(fit.pack.black_density);
    }
    for (std::size_t i = 0; i < ranges.size(); ++i) {
        EXPECT_NEAR(ranges[i], truth.iso_range, 15) << i;
        EXPECT_NEAR(blacks[i], truth.black_density, 0.08) << i;
    }
}

}  // namespace
}  // namespace fogproof::tests
