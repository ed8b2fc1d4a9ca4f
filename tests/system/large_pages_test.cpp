// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/large_pages.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <limits>
#include <new>
#include <numeric>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

template <class Value>
using Large = std::vector<Value, system::LargePages<Value>>;

// On both sides of where it asks for large pages, which are of 2 MB.
TEST(LargePages, AVectorOfAnySizeHoldsWhatIsPutIntoIt) {
    for (const std::size_t count : {0u, 1u, (4u << 20) / 4 - 1, (4u << 20) / 4, (5u << 20) / 4 + 3}) {
        Large<std::uint32_t> numbers(count);
        std::iota(numbers.begin(), numbers.end(), 7u);
        const Large<std::uint32_t> copy = numbers;
        for (std::size_t i = 0; i < count; ++i) ASSERT_EQ(copy[i], 7u + i);
    }
}

TEST(LargePages, TheyLieAtTheBeginOfAPage) {
    const Large<std::uint8_t> picture(5 << 20);
    EXPECT_EQ(reinterpret_cast<std::uintptr_t>(picture.data()) % (2 << 20), 0u);
}

TEST(LargePages, MoreThanThereIsIsRefused) {
    system::LargePages<double> pages;
    EXPECT_THROW(static_cast<void>(pages.allocate(std::numeric_limits<std::size_t>::max() / 4)),
                 std::bad_alloc);
}

}  // namespace
}  // namespace fogproof::tests
