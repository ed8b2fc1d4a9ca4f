// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// By how much neighbouring parts of a print are off together: another place of the camera is told by it, and
// a long outline, which looks the same wherever it is slid to, is not taken for one.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "registration/agreement.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::agreement;
using registration::FramePart;
using registration::GreyImage;
using registration::SeenFrame;

constexpr int kWidth = 420, kHeight = 300;
constexpr double kHarmless = 0.35;  // pixels; a print is refused from 0.45 on
// Of its blocks, but for those at the burn's edge; counted by where they are most alike, 0.74 of them were.
constexpr double kMostInPlace = 0.85;

template <class Value>
GreyImage image_of(const Value& value) {
    GreyImage image(kWidth, kHeight);
    for (int y = 0; y < kHeight; ++y)
        for (int x = 0; x < kWidth; ++x) image.at(x, y) = float(value(x, y));
    return image;
}

SeenFrame seen_as(GreyImage image) {
    SeenFrame seen{std::move(image), {}, {}, {}};
    seen.inside.assign(std::size_t(kWidth) * kHeight, 1);
    return seen;
}

// Smooth noise, whose bumps are some pixels wide.
class Texture {
  public:
    explicit Texture(unsigned seed) {
        std::mt19937 random(seed);
        std::normal_distribution<double> normal(0, 1);
        for (double& v : phase_) v = 10 * normal(random);
        for (std::size_t i = 0; i < kWaves; ++i) {
            across_[i] = 0.35 * normal(random);
            down_[i] = 0.35 * normal(random);
        }
    }
    [[nodiscard]] double operator()(double x, double y) const {
        double sum = 0;
        for (std::size_t i = 0; i < kWaves; ++i) sum += std::sin(across_[i] * x + down_[i] * y + phase_[i]);
        return 0.4 + 0.04 * sum;
    }

  private:
    static constexpr std::size_t kWaves = 24;
    double phase_[kWaves], across_[kWaves], down_[kWaves];
};

TEST(Agreement, DriftOfOnePictureIsNone) {
    const Texture texture(1);
    EXPECT_LT(agreement(image_of(texture), seen_as(image_of(texture))).drift, 0.05);
}

TEST(Agreement, OfAPartAloneCountsNothingBeyondIt) {
    const Texture texture(1);
    const GreyImage image = image_of(texture);
    const auto whole = agreement(image, seen_as(image));
    const auto left = agreement(image, seen_as(image), FramePart{0, 0, kWidth / 2, kHeight});
    EXPECT_GT(whole.part.right, kWidth * 0.9);
    EXPECT_LE(left.part.right, kWidth / 2);
    EXPECT_GT(left.alike, 0.3 * double(whole.alike));
    EXPECT_LT(left.alike, 0.6 * double(whole.alike));
    EXPECT_EQ(left.against, 0);
    const auto low = agreement(image, seen_as(image), FramePart{0, kHeight / 2, kWidth, kHeight});
    EXPECT_GE(low.part.top, kHeight / 2);
    EXPECT_GT(low.alike, 0.3 * double(whole.alike));
}

// Two people stood before the background when the negative was taken, and were not there for the print's:
// even ground of a middle tone, which nothing on the negative explains or contradicts. A thumb on the print
// is not much of it. What either picture shows is known by construction; there is no outside source.
TEST(Agreement, EvenGroundInPlaceOfMuchOfThePictureIsAnotherExposure) {
    const Texture texture(5);
    const auto without = [&](double size) {
        return image_of([=](double x, double y) {
            const double one = std::hypot((x - 120) / 80, (y - 190) / 100),
                         two = std::hypot((x - 310) / 80, (y - 190) / 100);
            return std::min(one, two) < size ? 0.4 + 0.0002 * x : texture(x, y);
        });
    };
    const auto is_another = [&](double size) {
        return registration::have_other_regions({agreement(image_of(texture), seen_as(without(size)))});
    };
    EXPECT_FALSE(is_another(0));
    EXPECT_FALSE(is_another(0.3));
    EXPECT_TRUE(is_another(1));
}

TEST(Agreement, DriftIsByHowMuchAnotherViewIsOff) {
    const Texture texture(2);
    // A camera that stood elsewhere: what is near has moved, over half of the frame and smoothly.
    const auto moved = [&](double x, double y) { return texture(x + 1.2 * std::sin(x / 60), y); };
    EXPECT_NEAR(agreement(image_of(texture), seen_as(image_of(moved))).drift, 1.2 / std::sqrt(2.0), 0.2);
}

TEST(Agreement, OutlinesSlidAlongThemselvesAreNoDrift) {
    // Bars from top to bottom; the print is lit unevenly from top to bottom, and its grain is its own.
    std::mt19937 random(3);
    std::normal_distribution<double> grain(0, 0.01);
    const auto bars = [](double x) { return 0.3 + 0.25 * std::tanh(3 * std::sin(x / 7.0)); };
    const GreyImage expected =
        image_of([&](int x, int y) { return bars(x) * (1 - 0.0004 * y) + grain(random); });
    const GreyImage shown = image_of(
        [&](int x, int y) { return bars(x) * (1 - 0.0016 * y + 0.2 * std::sin(y / 9.0)) + grain(random); });
    EXPECT_LT(agreement(expected, seen_as(shown)).drift, kHarmless);
}

TEST(Agreement, OutlinesSlidAlongThemselvesAreInTheirPlace) {
    // Large rings on even ground, which a burn and the paper's curve have made lighter and softer at one
    // side.
    std::mt19937 random(4);
    std::normal_distribution<double> grain(0, 0.004);
    const auto rings = [](double x, double y) {
        return 0.4 + 0.25 * std::tanh(4 * std::sin(std::hypot(x - 210, 0.8 * (y - 150)) / 12.0));
    };
    const GreyImage expected = image_of([&](int x, int y) { return rings(x, y) + grain(random); });
    const GreyImage shown = image_of([&](int x, int y) {
        return rings(x, y) * (1 - 0.25 / (1 + std::exp((x + y - 300) / 15.0))) + grain(random);
    });
    const auto found = agreement(expected, seen_as(shown));
    EXPECT_GT(found.share(), kMostInPlace);
    EXPECT_GT(found.asked, 100u);
}

}  // namespace
}  // namespace fogproof::tests
