// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Bytes as letters in a page, read back by the rule that the header tells. That a browser reads them too is
// tested in page/.
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "report/packed_data.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

std::string read_back(const PackedData& packed) {
    std::string bytes;
    unsigned held = 0, bits = 0;
    const auto digit = [&](std::size_t i) {
        return unsigned(packed.letters[i] - '#') - (packed.letters[i] > '<' ? 1 : 0);
    };
    for (std::size_t i = 0; i < packed.letters.size(); i += 2) {
        held |= (91 * digit(i) + digit(i + 1)) << bits;
        for (bits += 13; bits >= 8; bits -= 8, held >>= 8) bytes += char(held & 0xff);
    }
    return bytes.substr(0, packed.bytes);
}

TEST(PackedData, ComesBackWhateverItsLength) {
    std::mt19937 random(11);
    for (std::size_t length = 0; length < 60; ++length) {
        std::string bytes;
        for (std::size_t i = 0; i < length; ++i) bytes += char(random());
        const PackedData packed = in_letters(bytes);
        EXPECT_EQ(read_back(packed), bytes) << length;
        EXPECT_EQ(packed.letters.find_first_of("<\n\r \""), std::string::npos);
    }
    EXPECT_EQ(read_back(in_letters(std::string(13, char(255)))), std::string(13, char(255)));
}

TEST(PackedData, TakesATwelfthLessThanBase64) {
    const std::string bytes(13'000, 'x');
    EXPECT_EQ(in_letters(bytes).letters.size(), 16'000u);  // base64: 17336
}

}  // namespace
}  // namespace fogproof::tests
