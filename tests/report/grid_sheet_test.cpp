// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words of a grid, on its picture as on its page: what warns comes first, and the bleach has its caution.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/cautions.hpp"
#include "report/grid_sheet.hpp"
#include "support/examples.hpp"
#include "support/recipes.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

GridSheet warned_grid() {
    const Printing printing(examples::fogged_pack(0.42), examples::ordinary_frame());
    GridRequest request;
    request.base = recipe_of(2, Seconds{0});
    request.across = usual_across(printing, request.base);
    request.down = usual_down(printing, request.base, request.across);
    request.remarks.warnings = {"the clear film edge is too dense", "the scan looks too dark"};
    return grid_sheet(printing, worked_grid(printing, std::move(request)), Rendering::absolute);
}

TEST(GridSheet, WarningsStandRightUnderTheTitleAndNowhereElse) {
    const GridSheet sheet = warned_grid();
    ASSERT_GE(sheet.subtitle.size(), 3u);
    EXPECT_EQ(sheet.subtitle[0], "Warning: the clear film edge is too dense");
    EXPECT_EQ(sheet.subtitle[1], "Warning: the scan looks too dark");
    EXPECT_THAT(sheet.subtitle[2], HasSubstr("on "));
    EXPECT_THAT(sheet.legend, Not(Contains(HasSubstr("Warning"))));
}

TEST(GridSheet, HasTheCautionOfTheBleach) {
    EXPECT_THAT(warned_grid().legend, Contains(HasSubstr(short_caution())));
}

}  // namespace
}  // namespace fogproof::tests
