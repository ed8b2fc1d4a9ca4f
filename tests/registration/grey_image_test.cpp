// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pictures made smaller by the mean of what each new pixel covers, worked out by hand.
#include <gtest/gtest.h>

#include "registration/grey_image.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

TEST(GreyImage, AreaMeansAreCutAtExactFractions) {
    GreyImage image(5, 3);
    for (int y = 0; y < 3; ++y)
        for (int x = 0; x < 5; ++x) image.at(x, y) = float(x + 10 * y);
    const GreyImage means = area_means(image, 1.5);
    ASSERT_EQ(means.width, 3);
    ASSERT_EQ(means.height, 2);
    // Along a row the pixels 0, 1, 2, 3 | 4 left over by half: (0 + 0.5 * 1) / 1.5, (0.5 * 1 + 2) / 1.5, ...
    const double across[] = {0.5 / 1.5, 2.5 / 1.5, 5.0 / 1.5}, down[] = {5 / 1.5, 25 / 1.5};
    for (int y = 0; y < 2; ++y)
        for (int x = 0; x < 3; ++x) EXPECT_NEAR(means.at(x, y), across[x] + down[y], 1e-5) << x << ' ' << y;
    EXPECT_EQ(area_means(image, 1).values, image.values);
}

TEST(GreyImage, AreaMeansOfTwoAreTheHalvedPicture) {
    GreyImage image(7, 6);
    for (std::size_t i = 0; i < image.values.size(); ++i) image.values[i] = float((7 * i) % 11);
    const GreyImage means = area_means(image, 2), half = halved(image);
    ASSERT_EQ(means.values.size(), half.values.size());
    for (std::size_t i = 0; i < half.values.size(); ++i) EXPECT_NEAR(means.values[i], half.values[i], 1e-5);
}

}  // namespace fogproof::tests
