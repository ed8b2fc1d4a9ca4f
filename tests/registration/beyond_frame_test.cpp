// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print that shows more than the negative's frame is told by its picture going on across the frame's edge,
// even where the picture is so fine that nothing is alike from one side of the edge to the other. A border
// and another print that lies right beside do not go on with it. All are drawn here.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "registration/beyond_frame.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::continued_beyond;
using registration::FramePart;
using registration::FrameWarp;
using registration::GreyImage;
using registration::half_diagonal;

constexpr int kFrameWide = 900, kFrameHigh = 600, kAround = 80;
constexpr double kGoesOn = 0.6;  // from here on a print is refused

// Stones of so many pixels, one value each, some lighter and some darker.
class Stones {
  public:
    Stones(unsigned seed, double size) : size_(size), value_(kCells * kCells) {
        std::mt19937 random(seed);
        std::uniform_real_distribution<float> any(0.3f, 0.8f);
        for (float& value : value_) value = any(random);
    }
    [[nodiscard]] double operator()(double x, double y) const {
        const double across = x / size_ + 20, down = y / size_ + 20;
        const int column = int(across), row = int(down);
        return std::lerp(std::lerp(at(column, row), at(column + 1, row), across - column),
                         std::lerp(at(column, row + 1), at(column + 1, row + 1), across - column),
                         down - row);
    }

  private:
    static constexpr int kCells = 300;
    [[nodiscard]] double at(int column, int row) const {
        return double(value_[std::size_t(row % kCells) * kCells + std::size_t(column % kCells)]);
    }
    double size_;
    std::vector<float> value_;
};

// Of a print whose frame lies so far in on the scan, pixel on pixel; `beyond` is what lies right of it, or of
// what the print shows of it.
template <class Picture, class Beyond>
double continued(const Picture& picture, const Beyond& beyond, int shown = kFrameWide) {
    GreyImage expected(kFrameWide, kFrameHigh), scan(kFrameWide + 2 * kAround, kFrameHigh + 2 * kAround);
    for (int y = 0; y < scan.height; ++y)
        for (int x = 0; x < scan.width; ++x) {
            const int u = x - kAround, v = y - kAround;
            const bool is_frame = u >= 0 && v >= 0 && u < kFrameWide && v < kFrameHigh;
            if (is_frame) expected.at(u, v) = float(picture(u, v));
            scan.at(x, y) = float(u >= shown ? beyond(u, v) : is_frame ? picture(u, v) : 0.9);
        }
    FrameWarp warp;
    const double half = half_diagonal(kFrameWide, kFrameHigh);
    warp.numbers = {half, 0, kAround + kFrameWide / 2.0, 0, half, kAround + kFrameHigh / 2.0, 0, 0, 0};
    return continued_beyond(warp, blurred(expected, 1), 1, FramePart{0, 0, shown, kFrameHigh},
                            blurred(scan, 1));
}

TEST(BeyondFrame, APictureOfFineStonesGoesOn) {
    const Stones stones(1, 6);
    EXPECT_GT(continued(stones, stones), kGoesOn);
}

TEST(BeyondFrame, ABroadPictureGoesOn) {
    const Stones hills(2, 60);
    EXPECT_GT(continued(hills, hills), kGoesOn);
}

TEST(BeyondFrame, ABorderEndsIt) {
    EXPECT_LT(continued(Stones(1, 6), [](double, double) { return 0.9; }), kGoesOn);
}

TEST(BeyondFrame, ANarrowBorderBeforeAPrintThatFallsOffAlikeEndsIt) {
    // Both darken from top to bottom.
    const Stones stones(1, 14), others(5, 14);
    const auto falling = [](const Stones& of) {
        return [&of](double x, double y) { return 0.3 * of(x, y) + 0.6 - 0.0009 * y; };
    };
    const auto beyond = [&](double x, double y) { return x < kFrameWide + 6 ? 0.9 : falling(others)(x, y); };
    EXPECT_LT(continued(falling(stones), beyond), kGoesOn);
}

TEST(BeyondFrame, SomethingSmootherThatFallsOffAlikeEndsIt) {
    const Stones stones(1, 6);
    const auto falling = [](double y) { return 0.6 - 0.0009 * y; };
    const auto picture = [&](double x, double y) { return 0.2 * stones(x, y) + falling(y); };
    EXPECT_LT(continued(picture, [&](double, double y) { return 0.1 + falling(y); }), kGoesOn);
    EXPECT_GT(continued(picture, picture), kGoesOn);
}

TEST(BeyondFrame, WhatLiesBesideACropIsHardlyTheFramesRim) {
    // The print is cropped some way from its right side. What lies there is alike by 0.65 where the frame's
    // rim would be, as broad pictures may be by chance, and of course goes on with itself.
    const auto wave = [](double y) { return 2 * std::numbers::pi * 1.5 * y / kFrameHigh; };
    const auto rim = [&](double, double y) { return 0.5 + 0.15 * std::sin(wave(y)); };
    const auto beside = [&](double, double y) {
        return 0.5 + 0.15 * (0.65 * std::sin(wave(y)) + std::sqrt(1 - 0.65 * 0.65) * std::cos(wave(y)));
    };
    EXPECT_LT(continued(rim, beside, kFrameWide - 50), kGoesOn);
    EXPECT_GT(continued(rim, rim, kFrameWide - 50), kGoesOn);
}

TEST(BeyondFrame, AnotherPrintThatBeginsBesideACropIsNotItsPicture) {
    // Sky above a dark coat; beside the crop a white lid above another print, which begins as high up.
    const auto step = [](double light, double dark) {
        return [=](double, double y) { return y < 0.55 * kFrameHigh ? light : dark; };
    };
    const auto picture = step(0.42, 0.1);
    EXPECT_LT(continued(picture, step(0.88, 0.78), kFrameWide - 50), kGoesOn);
    EXPECT_GT(continued(picture, picture, kFrameWide - 50), kGoesOn);
}

TEST(BeyondFrame, AnotherPrintRightBesideEndsIt) {
    EXPECT_LT(continued(Stones(1, 6), Stones(3, 6)), kGoesOn);
    EXPECT_LT(continued(Stones(2, 14), Stones(4, 14)), kGoesOn);
}

}  // namespace
}  // namespace fogproof::tests
