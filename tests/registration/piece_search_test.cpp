// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A soft half of a print is found beside the other one, a little turned. Drawn here, so what is true is
// known; no published source.
#include "registration/piece_search.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::FramePart;
using registration::FramePlace;
using registration::FrameWarp;
using registration::GreyImage;
using registration::half_diagonal;
using registration::piece_beside;
using registration::piece_places;

constexpr int kSoftWide = 480, kSoftHigh = 320, kSlidWide = 900, kSlidHigh = 700;

// Soft clouds.
double cloud(double x, double y) {
    return 0.5 + 0.2 * std::sin(x / 31 + 0.6 * std::sin(y / 40)) * std::cos(y / 27) +
           0.1 * std::sin((x + 2 * y) / 53);
}

// Half diagonals to pixels of the scan, about the frame's middle.
FrameWarp placed_at(double x, double y, double degrees) {
    const double half = half_diagonal(kSoftWide, kSoftHigh), angle = degrees * std::numbers::pi / 180;
    return {{half * std::cos(angle), -half * std::sin(angle), x, half * std::sin(angle),
             half * std::cos(angle), y, 0, 0, 0}};
}

TEST(PieceSearch, FindsASoftHalfBesideTheOther) {
    GreyImage negative(kSoftWide, kSoftHigh);
    for (int y = 0; y < kSoftHigh; ++y)
        for (int x = 0; x < kSoftWide; ++x) negative.at(x, y) = float(cloud(x, y));
    // The right half lies where its frame has this middle; all else is an even lid.
    const FrameWarp truth = placed_at(520, 380, 8), beside = placed_at(300, 330, 1);
    GreyImage scan(kSlidWide, kSlidHigh);
    const double half = half_diagonal(kSoftWide, kSoftHigh);
    for (int y = 0; y < kSlidHigh; ++y)
        for (int x = 0; x < kSlidWide; ++x) {
            const FramePlace at = truth.back({x + 0.5, y + 0.5});
            const double right = at.u * half + kSoftWide / 2.0, down = at.v * half + kSoftHigh / 2.0;
            const bool is_piece =
                right > kSoftWide / 2.0 && right < kSoftWide && down > 0 && down < kSoftHigh;
            scan.at(x, y) = is_piece ? float(0.2 + 0.5 * std::pow(cloud(right, down), 1.4)) : 0.9f;
        }
    const auto places = piece_places(negative, {kSoftWide / 2, 0, kSoftWide, kSoftHigh}, scan, beside, 2);
    ASSERT_FALSE(places.empty());
    constexpr double kSmallPixel = 480.0 / 80;
    for (const FramePlace corner : {FramePlace{0, -0.5}, {0, 0.5}, {0.8, 0}}) {
        const auto found = places.front().warp.at(corner), wanted = truth.at(corner);
        EXPECT_NEAR(found.x, wanted.x, 2 * kSmallPixel);
        EXPECT_NEAR(found.y, wanted.y, 2 * kSmallPixel);
    }
}

TEST(PieceSearch, LooksForAsMuchAsTheOtherHalfShows) {
    const auto beside = [](const FramePart& shown) {
        const FramePart part = piece_beside(shown, 900, 600);
        return std::array{part.left, part.top, part.right, part.bottom};
    };
    // The right half of a print that shows the frame's middle; the lower one; one at the frame's end.
    EXPECT_EQ(beside({450, 100, 720, 500}), (std::array{180, 100, 450, 500}));
    EXPECT_EQ(beside({100, 300, 800, 500}), (std::array{100, 100, 800, 300}));
    EXPECT_EQ(beside({0, 0, 500, 600}), (std::array{500, 0, 900, 600}));
}

TEST(PieceSearch, TheOtherPiecesOwnPlaceIsNone) {
    GreyImage negative(kSoftWide, kSoftHigh), scan(kSlidWide, kSlidHigh);
    for (int y = 0; y < kSoftHigh; ++y)
        for (int x = 0; x < kSoftWide; ++x) negative.at(x, y) = float(cloud(x, y));
    // A print that was not cut.
    const FrameWarp beside = placed_at(450, 350, 0);
    for (int y = 0; y < kSlidHigh; ++y)
        for (int x = 0; x < kSlidWide; ++x) {
            const int right = x - 450 + kSoftWide / 2, down = y - 350 + kSoftHigh / 2;
            scan.at(x, y) = negative.holds(right, down) ? negative.at(right, down) : 0.9f;
        }
    for (const auto& place :
         piece_places(negative, {kSoftWide / 2, 0, kSoftWide, kSoftHigh}, scan, beside, 2)) {
        const auto found = place.warp.at({0.4, 0}), own = beside.at({0.4, 0});
        EXPECT_GT(std::hypot(found.x - own.x, found.y - own.y), 480.0 / 80);
    }
}

}  // namespace
}  // namespace fogproof::tests
