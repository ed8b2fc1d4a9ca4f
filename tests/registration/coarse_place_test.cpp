// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How many matches have to agree on a place. Drawn here, so what is true is known; no published source.
#include "registration/coarse_place.hpp"

#include <gtest/gtest.h>

#include <array>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::coarse_places;
using registration::CoarseSearch;
using registration::FramePlace;
using registration::Match;

TEST(CoarsePlaces, AreHeldByAsManyMatchesAsAreAsked) {
    constexpr double kGrowth = 400, kMiddle = 500;
    constexpr std::array<FramePlace, 6> kPlaces{
        {{-0.6, -0.4}, {0.5, -0.3}, {0.1, 0.45}, {-0.3, 0.2}, {0.7, 0.1}, {-0.1, -0.5}}};
    std::vector<Match> all;
    for (const FramePlace& place : kPlaces)
        all.push_back({place, {kMiddle + kGrowth * place.u, kMiddle + kGrowth * place.v}, 0, kGrowth, 0.5});
    // One that is wrong.
    all.back().scan.x += 200;
    CoarseSearch search{3};
    EXPECT_TRUE(coarse_places(all, search).empty());
    search.fewest = 5;
    const auto places = coarse_places(all, search);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_EQ(places.front().agreeing.size(), 5u);
    EXPECT_NEAR(places.front().warp.at({0, 0}).x, kMiddle, 1e-6);
    EXPECT_NEAR(places.front().warp.at({0.5, 0}).x, kMiddle + kGrowth / 2, 1e-6);
}

}  // namespace
}  // namespace fogproof::tests
