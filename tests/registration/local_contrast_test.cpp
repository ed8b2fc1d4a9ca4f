// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What evened contrast is for: a picture and its flattened, darkened copy look alike. No outside source: the
// property is the definition.
#include "registration/local_contrast.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

registration::GreyImage waves(float contrast, float level) {
    registration::GreyImage image(120, 90);
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            image.at(x, y) = level + contrast * float(std::sin(0.5 * x) + std::sin(0.3 * x + 0.4 * y));
    return image;
}

TEST(LocalContrast, AFlattenedCopyLooksAsThePictureDoes) {
    const auto sharp = with_even_contrast(waves(0.2f, 0.5f), 12),
               flat = with_even_contrast(waves(0.05f, 0.2f), 12);
    for (std::size_t i = 0; i < sharp.values.size(); ++i) EXPECT_NEAR(sharp.values[i], flat.values[i], 0.005);
}

TEST(LocalContrast, TheFaintestIsNotRaisedToAPicture) {
    double most = 0;
    for (const float value : with_even_contrast(waves(0.0002f, 0.5f), 12).values)
        most = std::max(most, double(std::abs(value)));
    EXPECT_LT(most, 0.02);
}

}  // namespace
}  // namespace fogproof::tests
