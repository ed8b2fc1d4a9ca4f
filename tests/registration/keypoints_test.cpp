// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Keypoints of Gaussian spots, whose place, size and direction are known.
#include "registration/keypoints.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <set>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

struct Spot {
    double x, y, size, light;
};
const Spot kSpots[] = {{40.3, 35.6, 4, 0.4}, {120.75, 50.2, 6, -0.35}, {70.1, 110.9, 5, 0.3}};

GreyImage spotted() {
    GreyImage image(170, 150);
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            double value = 0.5 + 0.0006 * x;  // a slope gives every spot a direction
            for (const auto& [sx, sy, size, light] : kSpots)
                value += light * std::exp(-(std::pow(x + 0.5 - sx, 2) + std::pow(y + 0.5 - sy, 2)) /
                                          (2 * size * size));
            image.at(x, y) = float(value);
        }
    return image;
}

const Keypoint& nearest(const std::vector<Keypoint>& all, double x, double y) {
    return *std::ranges::min_element(all, {},
                                     [&](const Keypoint& k) { return std::hypot(k.x - x, k.y - y); });
}

TEST(Keypoints, LieOnSpotsAndTellTheirSize) {
    const auto found = keypoints(spotted(), 50);
    ASSERT_GE(found.size(), 3u);
    for (const auto& [x, y, size, light] : kSpots) {
        const Keypoint& spot = nearest(found, x, y);
        EXPECT_NEAR(spot.x, x, 0.1);
        EXPECT_NEAR(spot.y, y, 0.1);
        // The Laplacian of a Gaussian spot is strongest at its own size (T. Lindeberg, Int. J. Computer
        // Vision 30 (1998) 79-116); differences of Gaussians a step of scale apart answer within such a step,
        // 2^(1/3).
        EXPECT_LT(std::abs(std::log2(spot.size / size)), 1.0 / 3);
    }
}

TEST(Keypoints, AreOfAtMostSoManyPlacesTheStrongestFirst) {
    const auto found = keypoints(spotted(), 2);
    std::set<std::pair<double, double>> places;
    for (const Keypoint& point : found) places.emplace(point.x, point.y);
    EXPECT_EQ(places.size(), 2u);
    EXPECT_TRUE(std::ranges::is_sorted(found, std::greater{}, &Keypoint::strength));
    EXPECT_TRUE(keypoints(GreyImage(80, 80), 50).empty()) << "an even picture has none";
}

TEST(Keypoints, LookTheSameInAPictureThatIsTurned) {
    const GreyImage upright = spotted();
    GreyImage turned(upright.height, upright.width);  // by a right angle, clockwise
    for (int y = 0; y < upright.height; ++y)
        for (int x = 0; x < upright.width; ++x) turned.at(upright.height - 1 - y, x) = upright.at(x, y);
    const auto before = keypoints(upright, 50), after = keypoints(turned, 50);
    for (const auto& [x, y, size, light] : kSpots) {
        const Keypoint& one = nearest(before, x, y);
        bool found = false;
        for (const Keypoint& other : after) {
            if (std::hypot(other.x - (upright.height - one.y), other.y - one.x) > 0.1) continue;
            double likeness = 0;
            for (std::size_t i = 0; i < one.look.size(); ++i) likeness += double(one.look[i] * other.look[i]);
            const double by =
                std::remainder(other.angle - one.angle - std::numbers::pi / 2, 2 * std::numbers::pi);
            found = found || (likeness > 0.95 && std::abs(by) < 0.1);
        }
        EXPECT_TRUE(found) << x << ' ' << y;
    }
}

}  // namespace
}  // namespace fogproof::tests
