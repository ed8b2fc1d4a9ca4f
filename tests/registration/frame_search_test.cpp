// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Rough places of a drawn negative on its drawn print. Truth is drawn; no published source.
#include "registration/frame_search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/drawn_exposure.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::CoarsePlace;
using registration::FrameSearch;

TEST(FrameSearch, BesidesAKnownPlaceItIsNotFoundOnceMore) {
    const GreyImage film = exposure(1);
    const ReflectionImage print = print_of(film);
    const NegativeView view = scanned(film, kScannerNoise);
    FrameSearch search(print, view);
    const auto places = search.places(false, {3});
    ASSERT_FALSE(places.empty());
    const auto middle = places[0].warp.at({0, 0});
    EXPECT_NEAR(middle.x, kGlass + kFilmWide / 2.0, 3);
    EXPECT_NEAR(middle.y, kGlass + kFilmHigh / 2.0, 3);
    const auto others = search.places(false, {3}, &places[0].warp);
    EXPECT_TRUE(std::ranges::none_of(others, [&middle](const CoarsePlace& place) {
        const auto at = place.warp.at({0, 0});
        return std::hypot(at.x - middle.x, at.y - middle.y) < 10;
    }));
}

TEST(FrameSearch, NoPlaceIsFoundInTheMirrorOfAPrintThatIsNone) {
    const GreyImage film = exposure(1);
    const ReflectionImage print = print_of(film);
    const NegativeView view = scanned(film, kScannerNoise);
    FrameSearch search(print, view);
    EXPECT_TRUE(search.places(true, {3}).empty());
}

}  // namespace
}  // namespace fogproof::tests
