// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Both halves of a print that was cut in two. Prints and votes are drawn here, so what is true is known; no
// published source.
#include "registration/cut_print.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "support/drawn_exposure.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::kOtherGrain;
using registration::kOtherRegions;
using registration::placed_halves;
using registration::PlacedFrame;
using testing::HasSubstr;

// The print cut upright through its middle, its right half so many pixels further right.
ReflectionImage cut_in_two(const ReflectionImage& print, int apart) {
    ReflectionImage halves{print.width + apart, print.height, 1, {}, {}, false};
    for (int y = 0; y < halves.height; ++y)
        for (int x = 0; x < halves.width; ++x) {
            const int middle = print.width / 2;
            const bool is_gap = x >= middle && x < middle + apart;
            const int from = x < middle ? x : std::max(middle, x - apart);
            halves.light.push_back(
                is_gap ? 0.03f : print.light[std::size_t(y) * std::size_t(print.width) + std::size_t(from)]);
        }
    halves.clipped.assign(halves.light.size(), 0);
    return halves;
}

TEST(CutPrint, BothHalvesAreFoundAndShowTheirSideOfTheFrame) {
    constexpr int kApart = 60;
    const GreyImage film = exposure(1);
    const auto halves =
        placed_halves(cut_in_two(print_of(film), kApart), scanned(film, kScannerNoise), "print");
    // Which of them is found first is left open.
    const bool is_left_first = halves[0].shown.left < halves[1].shown.left;
    const PlacedFrame &left = halves[is_left_first ? 0 : 1], &right = halves[is_left_first ? 1 : 0];
    EXPECT_NEAR(left.corners()[0].x, kGlass, 1);
    EXPECT_NEAR(right.corners()[2].x, kGlass + kFilmWide + kApart, 1);
    const double cut = left.grid.width / 2.0;
    EXPECT_LE(left.shown.right, cut + 24);
    EXPECT_GE(right.shown.left, cut - 24);
    EXPECT_LE(left.shown.right, right.shown.left);
}

// Of a print that was cut, the right half lying upside down.
void expect_found_with_right_half_upside_down(const GreyImage& film) {
    constexpr int kApart = 60;
    ReflectionImage halves = cut_in_two(print_of(film), kApart);
    const int from = (halves.width + kApart) / 2;
    const ReflectionImage before = halves;
    for (int y = 0; y < halves.height; ++y)
        for (int x = from; x < halves.width; ++x)
            halves.light[std::size_t(y) * std::size_t(halves.width) + std::size_t(x)] =
                before.light[std::size_t(halves.height - 1 - y) * std::size_t(halves.width) +
                             std::size_t(halves.width - 1 - (x - from))];
    const auto placed = placed_halves(halves, scanned(film, kScannerNoise), "print");
    const bool is_left_first = placed[0].shown.left < placed[1].shown.left;
    // The frame's lower right corner lies at the top of the cut.
    const auto corner = placed[is_left_first ? 1 : 0].corners()[2];
    EXPECT_NEAR(corner.x, from + kGlass, 1);
    EXPECT_NEAR(corner.y, kGlass, 1);
}

TEST(CutPrint, OneHalfMayLieUpsideDown) {
    expect_found_with_right_half_upside_down(exposure(1));
}

TEST(CutPrint, AFenceUpsideDownIsNotTakenForOneThatStands) {
    // Bars and two rails, as far from the one end as from the other: alike either way up.
    constexpr int kLeft = 440, kRight = 830, kTop = 230, kBottom = 560, kRail = 60, kHalfRail = 9;
    GreyImage film = exposure(1);
    for (int y = kTop; y < kBottom; ++y)
        for (int x = kLeft; x < kRight; ++x) {
            const bool is_rail = std::abs(y - kTop - kRail) < kHalfRail ||
                                 std::abs(kBottom - kRail - y) < kHalfRail,
                       is_bar = (x - kLeft) % 37 < 14;
            float& density = film.at(x + kClearFilm, y + kClearFilm);
            density = is_rail || is_bar ? 1 + 0.2f * (density - 0.5f) : 0.3f + 0.3f * density;
        }
    expect_found_with_right_half_upside_down(film);
}

TEST(CutPrint, AHalfDoesNotClaimBandsThatRunOnOverTheOther) {
    // Level bands over both halves look the same wherever they are slid to; the right half has little else.
    constexpr int kApart = 60;
    GreyImage film = exposure(1);
    for (int y = kFilmHigh / 3; y < kFilmHigh; ++y)
        for (int x = kFilmWide / 2 - 60; x < kFilmWide * 3 / 4; ++x)
            film.at(x + kClearFilm, y + kClearFilm) = float(0.6 + 0.3 * std::sin(y / 6.0));
    const auto halves =
        placed_halves(cut_in_two(print_of(film), kApart), scanned(film, kScannerNoise), "print");
    const bool is_left_first = halves[0].shown.left < halves[1].shown.left;
    EXPECT_LE(halves[is_left_first ? 0 : 1].shown.right, halves[is_left_first ? 1 : 0].shown.left);
}

TEST(CutPrint, ASlowEdgeThatRunsOnOverBothHalvesDoesNotMakeThemOne) {
    // Wherever an edge is slid to it is alike; the left half has hardly anything else.
    constexpr int kApart = 90;
    GreyImage film = exposure(1);
    for (int y = 0; y < kFilmHigh; ++y)
        for (int x = 0; x < kFilmWide; ++x) {
            float& density = film.at(x + kClearFilm, y + kClearFilm);
            const double grain = double(density) - scene(x, y), slow = std::tanh((y - 260 - 0.3 * x) / 130);
            const double detail = scene(x, 300 + y % 300) - 0.45;
            density = float(grain + 0.8 + 0.35 * slow + (x < kFilmWide / 2 ? 0.1 : 0.5) * detail);
        }
    const auto halves =
        placed_halves(cut_in_two(print_of(film), kApart), scanned(film, kScannerNoise), "print");
    const bool is_left_first = halves[0].shown.left < halves[1].shown.left;
    EXPECT_NEAR(halves[is_left_first ? 0 : 1].corners()[0].x, kGlass, 1.5);
    EXPECT_NEAR(halves[is_left_first ? 1 : 0].corners()[2].x, kGlass + kFilmWide + kApart, 1.5);
}

TEST(CutPrint, HalvesOfAnotherExposureThatDiffersInGrainAloneAreRefused) {
    EXPECT_THAT(words_of_refusal([&] {
                    static_cast<void>(placed_halves(cut_in_two(print_of(exposure(1)), 60),
                                                    scanned(exposure(2), kScannerNoise), "print"));
                }),
                HasSubstr(kOtherGrain));
}

TEST(CutPrint, HalvesOnWhichSomebodyMovedAreRefused) {
    // A checked coat before the hills of the right half, between the exposures a little further right; all
    // else is the same to the grain.
    const auto with_coat = [](int from_left) {
        GreyImage film = exposure(1);
        for (int y = 280; y < 560; ++y)
            for (int x = from_left; x < from_left + 240; ++x)
                film.at(x + kClearFilm, y + kClearFilm) =
                    float(0.6 + 0.3 * std::sin((x - from_left) / 9.0) * std::sin(y / 11.0));
        return film;
    };
    EXPECT_THAT(words_of_refusal([&] {
                    static_cast<void>(placed_halves(cut_in_two(print_of(with_coat(480)), 60),
                                                    scanned(with_coat(493), kScannerNoise), "print"));
                }),
                HasSubstr(kOtherRegions));
}

TEST(CutPrint, HalvesOfAViewFromAnotherPlaceAreRefused) {
    // What is near, in the left half, has moved, smoothly over it; grain is the same, so that it does not
    // tell.
    GreyImage moved = exposure(1);
    for (int y = 0; y < kFilmHigh; ++y)
        for (int x = 0; x < kFilmWide / 2; ++x)
            moved.at(x + kClearFilm, y + kClearFilm) +=
                float(scene(x + 2 * std::sin(x / 70.0), y + 2 * std::sin(y / 60.0)) - scene(x, y));
    EXPECT_THAT(words_of_refusal([&] {
                    static_cast<void>(placed_halves(cut_in_two(print_of(moved), 60),
                                                    scanned(exposure(1), kScannerNoise), "print"));
                }),
                HasSubstr(kOtherRegions));
}

TEST(CutPrint, APrintThatWasNotCutIsToldFromHalves) {
    const GreyImage film = exposure(1);
    EXPECT_THAT(words_of_refusal([&] {
                    static_cast<void>(placed_halves(print_of(film), scanned(film, kScannerNoise), "print"));
                }),
                HasSubstr(registration::kNotCut));
}

}  // namespace
}  // namespace fogproof::tests
