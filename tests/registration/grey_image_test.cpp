// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pictures made smaller by the mean of what each new pixel covers, worked out by hand.
#include <gtest/gtest.h>

#include "registration/grey_image.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

TEST(GreyImage, AreaMeansAreCutAtExactFractions) {
    GreyImage image(3, 5);
    for (int y = 0; y < 5; ++y)
        for (int x = 0; x < 3; ++x) image.at(x, y) = float(x + 10 * y);
    const GreyImage means = area_means(image, 2, 2);
    ASSERT_EQ(means.width, 2);
    ASSERT_EQ(means.height, 2);
    // Cells of 1 1/2 pixels along, of 2 1/2 down: (0 + 1/2 * 1) / 1 1/2, (1/2 * 1 + 2) / 1 1/2, and so on.
    const double along[] = {0.5 / 1.5, 2.5 / 1.5}, down[] = {(0 + 10 + 10) / 2.5, (10 + 30 + 40) / 2.5};
    for (int y = 0; y < 2; ++y)
        for (int x = 0; x < 2; ++x) EXPECT_NEAR(means.at(x, y), along[x] + down[y], 1e-5) << x << ' ' << y;
    EXPECT_EQ(area_means(image, 3, 5).values, image.values);
}

TEST(GreyImage, AreaMeansOfTwoAreTheHalvedPicture) {
    GreyImage image(8, 6);
    for (std::size_t i = 0; i < image.values.size(); ++i) image.values[i] = float((7 * i) % 11);
    const GreyImage means = area_means(image, 4, 3), half = halved(image);
    ASSERT_EQ(means.values.size(), half.values.size());
    for (std::size_t i = 0; i < half.values.size(); ++i) EXPECT_NEAR(means.values[i], half.values[i], 1e-5);
}

}  // namespace fogproof::tests
