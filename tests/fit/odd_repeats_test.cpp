// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings of one patch of which one is another's. Common practice, no source.
#include "fit/odd_repeats.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<Reading> slips(std::initializer_list<double> densities) {
    std::vector<Reading> rows;
    for (const double density : densities) {
        Reading row;
        row.strip = "fixed";
        row.exposure_s = row.develop_s = 0;
        row.density = density;
        rows.push_back(row);
    }
    return rows;
}

TEST(OddRepeats, NameTheOneThatIsOff) {
    EXPECT_THAT(odd_repeats(slips({0.085, 0.09, 0.21}), Pack{}),
                ElementsAre(HasSubstr("density 0.21: the other 2 readings of such a patch are about 0.09")));
    EXPECT_THAT(odd_repeats(slips({0.085, 0.09, 0.11}), Pack{}), IsEmpty());
    EXPECT_THAT(odd_repeats(slips({0.085, 0.21}), Pack{}), IsEmpty()) << "either may be right";
    EXPECT_THAT(odd_repeats(slips({0.08, 0.15, 0.21, 0.09}), Pack{}), IsEmpty()) << "none stands alone";
}

}  // namespace
}  // namespace fogproof::tests
