// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where a frame was cut between two places. Votes and pictures are drawn here, so what is true is known; no
// published source.
#include "registration/frame_cut.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::BlockVotes;
using registration::cut_by_detail;
using registration::cut_by_tones;
using registration::FramePart;
using registration::GreyImage;
using registration::SeenFrame;

constexpr int kSide = 24, kColumns = 10, kRows = 6;
constexpr int kVotedWide = kColumns * kSide + 5, kVotedHigh = kRows * kSide + 7;

template <class IsAlike>
BlockVotes votes_of(const IsAlike& is_alike) {
    BlockVotes votes{kSide, kColumns, kRows, {}};
    for (int row = 0; row < kRows; ++row)
        for (int column = 0; column < kColumns; ++column)
            votes.votes.push_back(is_alike(column, row) ? 1 : -0.7);
    return votes;
}

TEST(FrameCut, IsWhereEachSideSpeaksForItsHalf) {
    const auto left = votes_of([](int column, int) { return column < 6; });
    const auto right = votes_of([](int column, int) { return column >= 6; });
    const auto cut = cut_by_detail(left, right, kVotedWide, kVotedHigh);
    EXPECT_EQ(cut.first.left, 0);
    EXPECT_EQ(cut.first.right, 6 * kSide);
    EXPECT_EQ(cut.second.left, 6 * kSide);
    EXPECT_EQ(cut.second.right, kVotedWide);
    for (const FramePart& part : {cut.first, cut.second}) EXPECT_EQ(part.bottom, kVotedHigh);
    const auto other_way = cut_by_detail(right, left, kVotedWide, kVotedHigh);
    EXPECT_EQ(other_way.first.left, 6 * kSide);
    EXPECT_EQ(other_way.second.right, 6 * kSide);
}

TEST(FrameCut, MayGoAcrossItsHeight) {
    const auto upper = votes_of([](int, int row) { return row < 2; });
    const auto lower = votes_of([](int, int row) { return row >= 2; });
    const auto cut = cut_by_detail(lower, upper, kVotedWide, kVotedHigh);
    EXPECT_EQ(cut.second.bottom, 2 * kSide);
    EXPECT_EQ(cut.first.top, 2 * kSide);
}

TEST(FrameCut, AnEdgeThatRunsOnOverBothHalvesBelongsToEach) {
    // Its outline looks the same wherever it is slid to, so the left place agrees with it on the right, too.
    const auto left =
        votes_of([](int column, int row) { return column < 4 || row == 0 || row == kRows - 1; });
    const auto right = votes_of([](int column, int) { return column >= 4; });
    EXPECT_EQ(cut_by_detail(left, right, kVotedWide, kVotedHigh).first.right, 4 * kSide);
}

// A frame with level bands on its left and stones on its right.
double density_at(int x, int y) {
    if (x < kVotedWide / 2) return 0.8 + 0.4 * std::sin(y / 19.0);
    return 0.8 + 0.2 * std::sin(x / 3.0) + 0.2 * std::sin(y / 4.0 + x / 9.0);
}

double printed(double density) {
    return 0.9 / (1 + std::exp(-3 * (density - 0.8)));
}

// The same, bleached a little.
double bleached(double density) {
    return std::sqrt(printed(density));
}

// The frame as a place shows it that is right for one side; the other side's piece lies so many pixels off.
SeenFrame seen_at(bool is_right_for_left, int off) {
    SeenFrame seen;
    seen.value = GreyImage(kVotedWide, kVotedHigh);
    seen.inside.assign(seen.value.values.size(), 1);
    for (int y = 0; y < kVotedHigh; ++y)
        for (int x = 0; x < kVotedWide; ++x) {
            const bool is_left = x < kVotedWide / 2;
            const int there = is_left == is_right_for_left ? x : is_left ? x - off : x + off;
            const double density = density_at(there, y);
            seen.value.at(x, y) = float(is_left ? bleached(density) : printed(density));
        }
    return seen;
}

TEST(FrameCut, BandsThatLookTheSameAtBothPlacesAreToldByTheirTones) {
    GreyImage negative(kVotedWide, kVotedHigh);
    for (int y = 0; y < kVotedHigh; ++y)
        for (int x = 0; x < kVotedWide; ++x) negative.at(x, y) = float(density_at(x, y));
    constexpr int kOff = 11;
    const auto cut = cut_by_tones(negative, seen_at(true, kOff), seen_at(false, kOff));
    EXPECT_EQ(cut.first.left, 0);
    EXPECT_EQ(cut.first.right, 5 * kSide);
    EXPECT_EQ(cut.second.left, 5 * kSide);
    EXPECT_EQ(cut.second.right, kVotedWide);
    const auto exchanged = cut_by_tones(negative, seen_at(false, kOff), seen_at(true, kOff));
    EXPECT_EQ(exchanged.first.left, 5 * kSide);
    // What is said of one side at its own place and at the other's.
    const FramePart stones{5 * kSide, 0, kVotedWide, kVotedHigh};
    EXPECT_LT(registration::left_by_tones(negative, seen_at(false, kOff), stones), -4);
    EXPECT_GT(registration::left_by_tones(negative, seen_at(true, kOff), stones), -3);
}

}  // namespace
}  // namespace fogproof::tests
