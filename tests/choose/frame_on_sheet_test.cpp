// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A picture on its sheet: plain geometry.
#include "choose/frame_on_sheet.hpp"

#include <gtest/gtest.h>

#include "fogproof/base/error.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kExact = 1e-9;

TEST(FrameOnSheetTest, IsAsLargeAsTheMarginsAllowInTheMiddle) {
    const FrameOnSheet frame = laid_on_sheet({240, 300, 10}, 3000, 2000);
    EXPECT_EQ(frame.quarter_turns, 1) << "a picture that is wide has the sheet lie on its side";
    EXPECT_NEAR(frame.width, 280, kExact);
    EXPECT_NEAR(frame.height, 280.0 * 2 / 3, kExact);
    EXPECT_NEAR(frame.left, 10, kExact);
    EXPECT_NEAR(frame.top, (240 - 280.0 * 2 / 3) / 2, kExact);
    EXPECT_NEAR(frame.right_margin(), 10, kExact);
    EXPECT_NEAR(frame.bottom_margin(), frame.top, kExact);
    EXPECT_EQ(laid_on_sheet({240, 300, 10}, 2000, 3000).quarter_turns, 0);
    EXPECT_EQ(laid_on_sheet({300, 240, 10}, 3000, 2000).quarter_turns, 0);
}

TEST(FrameOnSheetTest, TakesTheTurnAndTheSizeThatAreTold) {
    const FrameOnSheet across = laid_on_sheet({240, 300, 10}, 3000, 2000, {0, std::nullopt});
    EXPECT_NEAR(across.width, 220, kExact);
    const FrameOnSheet small = laid_on_sheet({240, 300, 10}, 3000, 2000, {std::nullopt, 150});
    EXPECT_NEAR(small.width, 150, kExact);
    EXPECT_NEAR(small.left, (small.sheet_width - 150) / 2, kExact);
}

TEST(FrameOnSheetTest, RefusesAPictureThatDoesNotLieOnItsSheet) {
    EXPECT_THROW(static_cast<void>(laid_on_sheet({240, 300, 120}, 3000, 2000)), Error);
    EXPECT_THROW(static_cast<void>(laid_on_sheet({240, 300, 10}, 3000, 2000, {std::nullopt, 310})), Error);
    EXPECT_NO_THROW(static_cast<void>(laid_on_sheet({240, 300, 10}, 3000, 2000, {std::nullopt, 300})));
}

}  // namespace
}  // namespace fogproof::tests
