// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words of the picture of a test strip: where they name a bleach, its caution stands too.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "proof/predicted_strip.hpp"
#include "report/strip_sheet.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

TEST(StripSheet, HasTheCautionOfTheBleachWhereItNamesOne) {
    const Printing printing(examples::fogged_pack(0.42), examples::ordinary_frame());
    StartingPoint point = starting_points(printing, as_fresh(printing), usual_bounds(printing)).best;
    ASSERT_GT(point.bleach_s.value, 0);
    const auto legend = [&](const PredictedStrip& strip) {
        return strip_sheet(printing, strip, "hut", nullptr, std::nullopt, Rendering::absolute).legend;
    };
    // IPCS ICSC 1132: acids, heat.
    PredictedStrip strip = predicted_strip(printing, point, {false, 0.4, 0.55, 1.0});
    EXPECT_THAT(legend(strip), Contains(AllOf(HasSubstr("Keep ferricyanide from acids, heat and strong sun"),
                                              HasSubstr("licensed practice"))));
    std::erase_if(strip.states, [](const StripState& state) { return state.bleached; });
    EXPECT_THAT(legend(strip), Not(Contains(HasSubstr("erricyanide"))));
}

}  // namespace
}  // namespace fogproof::tests
