// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Test strips whose bands cannot all be told apart, asked of the program: the two darkest merged in black.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

// What a flatbed is good to beside a patch of known density (assumed).
constexpr double kBandsReadTo = 0.05;

class MergedSteps : public ::testing::Test {
  protected:
    /// Black card, a slip only fixed, and a strip whose bands have these lengths.
    void lay(std::vector<double> densities, std::vector<double> lengths) {
        StripScan scan{.width = 900, .height = 400, .lid = 1.4};
        scan.dust = 10, scan.noise = 0.002, scan.fall_off = 0;
        DrawnStrip strip;
        strip.x = 450, strip.y = 160, strip.length = 760, strip.width = 120, strip.degrees = 1;
        strip.densities = std::move(densities), strip.lengths = std::move(lengths);
        scan.strips = {strip};
        scan.patches = {{{60, 290, 140, 80}, 0.09}};
        scan.linear().tiffsave((program_ / "bed.tif").c_str());
    }
    auto told(const std::string& seconds) {
        return program_.run("read bed.tif --white 80,305,100,50=0.09 --filter 2 -o rows.csv --exposures " +
                            seconds);
    }
    Program program_;
};

TEST_F(MergedSteps, ThatMayBeAtEitherEndAreRefusedAndReadWithTheSecondsOfOne) {
    lay({1.73, 1.73, 1.59, 0.97, 0.58, 0.46}, {0.7, 0.7, 1, 1, 1, 2});
    const auto refused = told("2,4,8,16,32,64");
    EXPECT_EQ(refused.code, 65);
    EXPECT_THAT(refused.err, HasSubstr("leaves open which 6 are meant"));
    const auto read = told("2,4,8,16,32");
    EXPECT_EQ(read.code, 0) << read.err;
    const auto rows = parse_readings(content_of(program_ / "rows.csv"), "rows.csv");
    ASSERT_EQ(rows.size(), 5U);
    const double truth[] = {1.73, 1.59, 0.97, 0.58, 0.46};
    for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_NEAR(rows[i].density, truth[i], kBandsReadTo) << i;
}

TEST_F(MergedSteps, ThatWereDividedByLengthAreNamedWithTheirSeconds) {
    lay({1.73, 1.2, 0.9, 0.6, 0.46}, {1, 1, 1, 1, 1.8});
    EXPECT_THAT(told("2,4,8,16,32").err, Not(HasSubstr("warning")));
    EXPECT_THAT(told("1,2,4,8,16,32").err, HasSubstr("steps 5 and 6 (2 s, 1 s) cannot be told apart"));
}

}  // namespace
}  // namespace fogproof::tests
