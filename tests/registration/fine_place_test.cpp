// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print's place to a part of a pixel, on pictures whose place is known because they are drawn there:
// neither the scanner's blur nor the enlarger's moves an edge, and a small thing on empty ground is found
// although coarse levels say nothing of it. Outside source: a scanner adds up light (ISO 14524 measures
// scanners by reflected light).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "registration/fine_place.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::blurred;
using registration::CoarsePlace;
using registration::fine_place;
using registration::frame_corners;
using registration::FramePart;
using registration::FramePlace;
using registration::FrameWarp;
using registration::GreyImage;
using registration::half_diagonal;
using registration::kBlurUnit;
using registration::levels;
using registration::ScanPlace;
using registration::settled;

constexpr int kWide = 640, kHigh = 440, kMargin = 40;
constexpr int kFine = 4;  // the scan is drawn so many times finer, both ways
constexpr double kMatchDoubt = 3;

// From the frame's pixels to the scan's: a margin, and a part of a pixel.
constexpr double kRight = kMargin + 3.37, kDown = kMargin - 2.21;

FrameWarp moved(double right, double down) {
    FrameWarp warp;
    const double half = half_diagonal(kWide, kHigh);
    warp.numbers = {half, 0, kWide / 2.0 + right, 0, half, kHigh / 2.0 + down, 0, 0, 0};
    return warp;
}

// Lightness of the frame at a place in its pixels, drawn without blur; the scan adds it up as light.
template <class Lightness>
GreyImage negative_of(const Lightness& lightness) {
    GreyImage image(kWide, kHigh);
    for (int y = 0; y < kHigh; ++y)
        for (int x = 0; x < kWide; ++x) image.at(x, y) = float(lightness(x + 0.5, y + 0.5));
    return image;
}

template <class Value>
GreyImage drawn_finely(const Value& value) {
    GreyImage image((kWide + 2 * kMargin) * kFine, (kHigh + 2 * kMargin) * kFine);
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            image.at(x, y) = float(value((x + 0.5) / kFine - kRight, (y + 0.5) / kFine - kDown));
    return image;
}

GreyImage scan_of_light(GreyImage light, double blur) {
    light = halved(halved(blurred(light, blur * kFine)));
    std::mt19937 random(7);
    std::normal_distribution<float> grain(0, 0.003f);
    for (float& value : light.values) value = std::cbrt(std::max(0.0f, value)) + grain(random);
    return light;
}

template <class Lightness>
GreyImage scan_of(const Lightness& lightness, double blur) {
    return scan_of_light(drawn_finely([&](double x, double y) { return std::pow(lightness(x, y), 3); }),
                         blur);
}

// From a place that is off by two pixels across and one down, with matches that are as much off.
CoarsePlace near_place() {
    CoarsePlace near{moved(kRight + 2, kDown - 1), {}};
    for (const FramePlace& corner : frame_corners(kWide, kHigh))
        near.agreeing.push_back({corner, near.warp.at(corner), 0, 1, 0.5});
    return near;
}

double worst_corner(const FrameWarp& found) {
    double worst = 0;
    for (const FramePlace& corner : frame_corners(kWide, kHigh)) {
        const ScanPlace at = found.at(corner), true_place = moved(kRight, kDown).at(corner);
        worst = std::max(worst, std::hypot(at.x - true_place.x, at.y - true_place.y));
    }
    return worst;
}

// Tiles that fall from light to dark to the right and down, and jump back at every edge.
double tiles(double x, double y) {
    const double across = x / 37 - std::floor(x / 37), down = y / 29 - std::floor(y / 29);
    const int tile = int(std::floor(x / 37)) * 7 + int(std::floor(y / 29)) * 13;
    return 0.92 - 0.55 * across - 0.25 * down + 0.012 * (tile % 5);
}

TEST(FinePlace, ABlurOfTheScannerMovesNoEdge) {
    // All edges look the same way. Blurred as lightness, they would all move the same way, by 1.4 pixels at
    // the worst corner. What is left, 0.56, comes of the area of the scan's pixels and of a curve learnt
    // beside edges.
    constexpr double kBlur = 2.5, kLeft = 0.7;
    // Pixels: the area of a pixel blurs too, and the search knows 1.8, 2.5 and 3.5.
    constexpr double kBlurFound = 0.7;
    const auto all = levels(negative_of(tiles), scan_of(tiles, kBlur));
    const auto found = fine_place(all, near_place(), kMatchDoubt);
    ASSERT_TRUE(found);
    EXPECT_LT(worst_corner(found->warp), kLeft);
    EXPECT_NEAR(found->blur, kBlur, kBlurFound);
}

// Light that film lets through, as a print of it is expected to look: light where the film is dense.
GreyImage as_expected(GreyImage film) {
    for (float& light : film.values) light = 1 - std::cbrt(light);
    return film;
}

TEST(FinePlace, ABlurOfTheEnlargerMovesNoCorner) {
    // All edges look the same way, and the paper's curve is steep: blurred before it, they move.
    const auto film = [](double x, double y) { return std::pow(10.0, -1.3 * tiles(x, y)); };
    constexpr double kEnlarger = 1.0, kScanner = 0.8;
    GreyImage light = blurred(drawn_finely(film), kEnlarger * kFine);
    for (float& each : light.values)
        each = std::pow(10.0f, -0.08f - 1.7f / (1 + std::pow(10.0f, -2.5f * (std::log10(each) + 0.75f))));
    GreyImage negative(kWide, kHigh);
    for (int y = 0; y < kHigh; ++y)
        for (int x = 0; x < kWide; ++x) negative.at(x, y) = float(film(x + 0.5, y + 0.5));
    const auto all = levels(as_expected(negative), scan_of_light(light, kScanner));
    auto found = fine_place(all, near_place(), kMatchDoubt);
    ASSERT_TRUE(found);
    EXPECT_GT(worst_corner(found->warp), 1.0);
    found = settled(std::move(*found), all.front(), as_expected(blurred(negative, kBlurUnit)),
                    {0, 0, kWide, kHigh}, near_place(), kMatchDoubt);
    // What is left comes of the area of pixels, as above.
    EXPECT_LT(worst_corner(found->warp), 0.5);
}

TEST(FinePlace, ASmallThingOnEmptyGroundIsFoundWhereCoarseLevelsAreEmpty) {
    // Gravel of 68 pixels on a plain sky as light as it: the coarsest level has too few blocks of it.
    std::mt19937 random(11);
    std::uniform_real_distribution<double> any(0.3, 0.9);
    constexpr int kStones = 9;
    std::vector<double> stone(kStones * kStones);
    for (double& each : stone) each = any(random);
    const auto thing = [&](double x, double y) {
        const double across = (x - 260) / 7.5, down = (y - 150) / 7.5;
        if (across < 0 || down < 0 || across >= kStones || down >= kStones) return 0.6;
        return stone[std::size_t(down) * kStones + std::size_t(across)];
    };
    const auto all = levels(negative_of(thing), scan_of(thing, 0.6));
    ASSERT_GT(all.size(), 1u);
    const std::vector coarse(all.end() - 1, all.end());
    EXPECT_FALSE(fine_place(coarse, near_place(), kMatchDoubt));
    const auto found = fine_place(all, near_place(), kMatchDoubt);
    ASSERT_TRUE(found);
    // Only the thing itself holds the place, from 2.2 pixels off at first.
    const FramePlace middle{(260 + 34 - kWide / 2.0) / half_diagonal(kWide, kHigh),
                            (150 + 34 - kHigh / 2.0) / half_diagonal(kWide, kHigh)};
    const ScanPlace at = found->warp.at(middle), wanted = moved(kRight, kDown).at(middle);
    EXPECT_LT(std::hypot(at.x - wanted.x, at.y - wanted.y), 0.5);
}

// Random values some pixels apart, straight lines between them.
struct Lattice {
    Lattice(double pitch, double spread, unsigned seed) : pitch_(pitch) {
        std::mt19937 random(seed);
        std::normal_distribution<double> value(0, spread);
        for (double& each : values_) each = value(random);
    }
    double operator()(double x, double y) const {
        const double across = x / pitch_ + 64, down = y / pitch_ + 64;
        const auto left = std::size_t(across), top = std::size_t(down);
        const auto at = [&](std::size_t i, std::size_t j) {
            return values_[(j % kSide) * kSide + i % kSide];
        };
        return std::lerp(std::lerp(at(left, top), at(left + 1, top), across - double(left)),
                         std::lerp(at(left, top + 1), at(left + 1, top + 1), across - double(left)),
                         down - double(top));
    }

  private:
    static constexpr std::size_t kSide = 512;
    double pitch_;
    std::vector<double> values_ = std::vector<double>(kSide * kSide);
};

TEST(FinePlace, GrainHoldsCornersThatNoTextureIsNear) {
    // Stones in the middle on ground that shows nothing but the film's grain, fainter than the scan's noise
    // is there on three pixels of four.
    const Lattice stones(8, 0.12, 3), grain(2.5, 0.005, 4);
    const auto picture = [&](double x, double y) {
        const bool is_stone = std::hypot(x - 330, y - 230) < 70;
        return 0.6 + grain(x, y) + (is_stone ? std::clamp(stones(x, y), -0.3, 0.3) : 0.0);
    };
    const GreyImage scan = scan_of(picture, 0.8);
    const auto near = near_place();
    const auto all = levels(negative_of(picture), scan);
    auto found = fine_place(all, near, kMatchDoubt);
    ASSERT_TRUE(found);
    const double before = worst_corner(found->warp);
    EXPECT_GT(before, 0.8);
    found = settled(std::move(*found), all.front(), blurred(all.front().negative, kBlurUnit),
                    {0, 0, kWide, kHigh}, near, kMatchDoubt);
    EXPECT_LT(worst_corner(found->warp), 0.3);
    EXPECT_LT(found->corner_doubt, 0.5);
}

TEST(FinePlace, WhatIsEvenInAnotherWayHoldsNothing) {
    // The print's ground has grain of its own: corners stay where the stones and keypoints put them, and the
    // doubt says so.
    const Lattice stones(8, 0.12, 3), grain(2.5, 0.005, 4), other(2.5, 0.005, 5);
    const auto with = [&](const Lattice& ground) {
        return [&](double x, double y) {
            const bool is_stone = std::hypot(x - 330, y - 230) < 70;
            return 0.6 + ground(x, y) + (is_stone ? std::clamp(stones(x, y), -0.3, 0.3) : 0.0);
        };
    };
    const GreyImage scan = scan_of(with(other), 0.8);
    const auto near = near_place();
    const auto all = levels(negative_of(with(grain)), scan);
    auto found = fine_place(all, near, kMatchDoubt);
    ASSERT_TRUE(found);
    const double before = worst_corner(found->warp), doubt = found->corner_doubt;
    found = settled(std::move(*found), all.front(), blurred(all.front().negative, kBlurUnit),
                    {0, 0, kWide, kHigh}, near, kMatchDoubt);
    EXPECT_LT(worst_corner(found->warp), before + 1);
    EXPECT_GT(found->corner_doubt, 0.7 * doubt);
}

TEST(FinePlace, OfAPrintThatWasCutTheOtherHalfMovesNoCorner) {
    // Beyond the cut the print goes on two pixels aside and one down: much the same, as a fence does.
    const Lattice ground(8, 0.12, 3);
    constexpr int kCut = kWide / 2;
    const auto whole = [&](double x, double y) { return 0.6 + std::clamp(ground(x, y), -0.3, 0.3); };
    const GreyImage scan =
        scan_of([&](double x, double y) { return x < kCut ? whole(x, y) : whole(x - 2, y - 1); }, 0.8);
    const CoarsePlace near{moved(kRight, kDown), {}};
    const auto all = levels(negative_of(whole), scan);
    const auto found = fine_place(all, near, kMatchDoubt);
    ASSERT_TRUE(found);
    const auto worst_of_half = [](const FrameWarp& warp) {
        double worst = 0;
        for (const double u : {-kCut / half_diagonal(kWide, kHigh), 0.0})
            for (const double v : {-0.5, 0.5}) {
                const FramePlace place{u, v * kHigh / half_diagonal(kWide, kHigh)};
                const ScanPlace at = warp.at(place), true_place = moved(kRight, kDown).at(place);
                worst = std::max(worst, std::hypot(at.x - true_place.x, at.y - true_place.y));
            }
        return worst;
    };
    const FramePart half{0, 0, kCut, kHigh};
    const GreyImage softer = blurred(all.front().negative, kBlurUnit);
    EXPECT_GT(worst_of_half(settled(*found, all.front(), softer, half, near, kMatchDoubt).warp), 0.5);
    const auto held = settled(*found, all.front(), softer, half, near, kMatchDoubt, half);
    EXPECT_LT(worst_of_half(held.warp), 0.25);
    EXPECT_LT(held.shown_doubt, held.corner_doubt) << "the half is surer than what it does not show";
}

TEST(FinePlace, IsNoneWhereTheFinestLevelDoesNotHoldIt) {
    const auto waves = [](double x, double y) {
        return 0.5 + 0.2 * std::sin(x / 9) * std::cos(y / 7 + x / 40);
    };
    GreyImage scan(kWide + 2 * kMargin, kHigh + 2 * kMargin);
    for (int y = 0; y < scan.height; ++y)
        for (int x = 0; x < scan.width; ++x) scan.at(x, y) = float(waves(x + 0.5 - kRight, y + 0.5 - kDown));
    auto all = levels(negative_of(waves), scan);
    const CoarsePlace near{moved(kRight + 1, kDown), {}};
    EXPECT_TRUE(fine_place(all, near, kMatchDoubt));
    std::mt19937 random(4);
    std::normal_distribution<float> noise(0.5f, 0.2f);
    for (float& value : all.front().scan.values) value = noise(random);
    EXPECT_FALSE(fine_place(all, near, kMatchDoubt));
}

}  // namespace
}  // namespace fogproof::tests
