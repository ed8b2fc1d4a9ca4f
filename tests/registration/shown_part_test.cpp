// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print's part of the frame takes even ground along and stops at whatever is no print of it. Drawn here, so
// what is true is known; no published source.
#include "registration/shown_part.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::FramePart;
using registration::GreyImage;
using registration::SeenFrame;
using registration::with_even_ground;

constexpr int kGroundWide = 480, kGroundHigh = 330;
// What detail tells: the upper left.
constexpr FramePart kDetailed{24, 24, 216, 168};
// Pixels by which an edge is told: a cell.
constexpr int kOfACell = 12;

// Texture where detail is told, and an even slope of tones everywhere.
GreyImage film_with_even_ground() {
    GreyImage negative(kGroundWide, kGroundHigh);
    for (int y = 0; y < kGroundHigh; ++y)
        for (int x = 0; x < kGroundWide; ++x) {
            const bool has_detail = x < kDetailed.right && y < kDetailed.bottom;
            negative.at(x, y) = float(0.4 + 0.001 * y + 0.0004 * x +
                                      (has_detail ? 0.1 * std::sin(x / 3.0) * std::sin(y / 4.0) : 0));
        }
    return negative;
}

// Through a paper's curve, under light that falls off, with a scanner's noise.
SeenFrame print_of_even_ground(const GreyImage& negative) {
    SeenFrame seen{negative, negative, negative, {}};
    seen.inside.assign(negative.values.size(), 1);
    std::mt19937 random(2);
    std::normal_distribution<float> noise(0, 0.006f);
    for (int y = 0; y < kGroundHigh; ++y)
        for (int x = 0; x < kGroundWide; ++x) {
            const double off = std::hypot(x - kGroundWide / 2.0, y - kGroundHigh / 2.0) / kGroundWide;
            seen.value.at(x, y) =
                float(0.2 + 0.6 * std::pow(double(negative.at(x, y)), 1.3) + 0.04 * off * off) +
                noise(random);
        }
    return seen;
}

void cover(SeenFrame& seen, const FramePart& part, float lightness) {
    for (int y = part.top; y < part.bottom; ++y)
        for (int x = part.left; x < part.right; ++x) seen.value.at(x, y) = lightness;
}

TEST(ShownPart, EvenGroundIsTakenUpToTheFramesEdge) {
    const GreyImage negative = film_with_even_ground();
    const FramePart part = with_even_ground(negative, print_of_even_ground(negative), kDetailed,
                                            {0, 0, kGroundWide, kGroundHigh});
    EXPECT_EQ(part.left, 0);
    EXPECT_EQ(part.top, 0);
    EXPECT_EQ(part.right, kGroundWide);
    EXPECT_EQ(part.bottom, kGroundHigh);
}

TEST(ShownPart, NothingIsTakenBeyondWhatIsAllowed) {
    const GreyImage negative = film_with_even_ground();
    const FramePart part =
        with_even_ground(negative, print_of_even_ground(negative), kDetailed, {0, 0, 264, kGroundHigh});
    EXPECT_LE(part.right, 264);
    EXPECT_GE(part.right, 264 - kOfACell);
    EXPECT_EQ(part.bottom, kGroundHigh);
}

TEST(ShownPart, ItEndsAtACutALidAndAHand) {
    const GreyImage negative = film_with_even_ground();
    // A lid that is a little lighter than the ground beside it, and a hand over the lower edge.
    SeenFrame seen = print_of_even_ground(negative);
    constexpr int kLidFrom = 300, kHandFrom = 270;
    cover(seen, {kLidFrom, 0, kGroundWide, kGroundHigh}, 0.6f);
    cover(seen, {60, kHandFrom, 160, kGroundHigh}, 0.75f);
    const FramePart part = with_even_ground(negative, seen, kDetailed, {0, 0, kGroundWide, kGroundHigh});
    EXPECT_LE(part.right, kLidFrom + 1);
    EXPECT_GE(part.right, kLidFrom - kOfACell);
    EXPECT_LE(part.bottom, kHandFrom + 1);
    EXPECT_GE(part.bottom, kHandFrom - kOfACell);
}

}  // namespace
}  // namespace fogproof::tests
