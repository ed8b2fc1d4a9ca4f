// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/shortest.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(Shortest, HasTheFewestDigitsThatReadBackTheSame) {
    EXPECT_EQ(shortest(0.1), "0.1");
    EXPECT_EQ(shortest(20), "20");
    for (const double value : {1.0 / 3, 0.1 + 0.2, -2.5e-7, 6.02214076e23})
        EXPECT_EQ(number_in(shortest(value)), value) << shortest(value);
}

}  // namespace
}  // namespace fogproof::tests
