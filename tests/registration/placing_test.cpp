// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A drawn negative whose frame is placed on a drawn print of it, so that what is true is known.
#include "registration/placing.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/drawn_exposure.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr int kPatch = 150, kPatchTop = 420, kPatchLeft = 100, kPatchAgain = 500;

// With a part of the picture once more, left to right exchanged.
GreyImage with_mirrored_patch(GreyImage film) {
    for (int y = kPatchTop; y < kPatchTop + kPatch; ++y)
        for (int x = 0; x < kPatch; ++x)
            film.at(kPatchAgain + kPatch - 1 - x, y) = film.at(kPatchLeft + x, y);
    return film;
}

ReflectionImage mirrored(ReflectionImage print) {
    for (int y = 0; y < print.height; ++y) {
        const auto row = print.light.begin() + std::ptrdiff_t(y) * print.width;
        std::reverse(row, row + print.width);
    }
    return print;
}

TEST(Placing, APartThatIsItsOwnMirrorImageDoesNotHideThatThePrintIsMirrored) {
    const GreyImage film = with_mirrored_patch(exposure(1));
    const auto placed =
        registration::placed_frame(mirrored(print_of(film)), scanned(film, kScannerNoise), "print");
    EXPECT_TRUE(placed.is_mirrored);
    // The frame's left side lies on the right.
    const auto corner = placed.corners()[0];
    EXPECT_NEAR(corner.x, kGlass + kFilmWide, 0.5);
    EXPECT_NEAR(corner.y, kGlass, 0.5);
}

}  // namespace
}  // namespace fogproof::tests
