// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The rising curve: medians of bins, pooled where they fall. The pooled values are worked by hand after the
// rule of adjacent violators (R. E. Barlow and others, Statistical Inference under Order Restrictions, 1972;
// from memory).
#include "registration/tone_relation.hpp"

#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// So many pairs make a bin, whatever number of bins is asked for.
constexpr int kPairsOfABin = 40;

ToneRelation relation_of(const std::vector<float>& values, int strangers = 0) {
    std::vector<ToneRelation::Pair> pairs;
    for (std::size_t i = 0; i < values.size(); ++i)
        for (int k = 0; k < kPairsOfABin; ++k)
            pairs.push_back({float(i), k < strangers ? 100.0f : values[i]});
    return {pairs, 1000};
}

TEST(ToneRelation, PoolsNeighboursThatFall) {
    // 3, 2 pool to 2.5; 6, 5, 1 pool to 4, which then stands above 2.5.
    const ToneRelation rising = relation_of({1, 3, 2, 6, 5, 1, 7});
    const float expected[] = {1, 2.5, 2.5, 4, 4, 4, 7};
    for (int i = 0; i < 7; ++i) EXPECT_FLOAT_EQ(rising.at(float(i)), expected[i]) << i;
}

TEST(ToneRelation, PoolsBackwardsAsFarAsACommonMeanFalls) {
    // 4, 1 pool to 2.5; with 3 before them that falls again: 3, 4, 1 are 8/3; with the next 0 all are 2.
    const ToneRelation rising = relation_of({3, 4, 1, 0});
    for (int i = 0; i < 4; ++i) EXPECT_FLOAT_EQ(rising.at(float(i)), 2) << i;
}

TEST(ToneRelation, IsStraightBetweenItsPointsAndLevelBeyond) {
    const ToneRelation rising = relation_of({1, 2, 4});
    EXPECT_FLOAT_EQ(rising.at(0.5f), 1.5f);
    EXPECT_FLOAT_EQ(rising.at(1.25f), 2.5f);
    EXPECT_FLOAT_EQ(rising.at(-3), 1);
    EXPECT_FLOAT_EQ(rising.at(9), 4);
}

TEST(ToneRelation, OutvotesStrangers) {
    const ToneRelation rising = relation_of({1, 2, 4}, kPairsOfABin / 2 - 2);
    EXPECT_FLOAT_EQ(rising.at(0), 1);
    EXPECT_FLOAT_EQ(rising.at(1), 2);
    EXPECT_FLOAT_EQ(rising.at(2), 4);
}

}  // namespace
}  // namespace fogproof::tests
