// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Directories of TIFF and EXIF, byte by byte (TIFF 6.0, section 2): a pointer to another one may be any
// number.
#include "pixels/tiff_entries.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <cstring>
#include <limits>
#include <string>

#include "pixels/tiff_numbers.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using namespace pixels;

constexpr std::uint16_t kPointer = 0x8769;  // to the EXIF directory (CIPA DC-008)

std::string little(std::uint64_t value, int bytes) {
    std::string text;
    for (int i = 0; i < bytes; ++i) text += char(value >> 8 * i & 0xff);
    return text;
}

BytesAt bytes_in(const std::string& content) {
    return [content](std::uint64_t place, std::span<std::byte> to) {
        if (place > content.size() || to.size() > content.size() - place) return false;
        std::memcpy(to.data(), content.data() + place, to.size());
        return true;
    };
}

// A directory at 8 with one entry, whose long value lies at 26; at 34 the directory that 34 points to, with a
// colour space of 1.
std::optional<TiffEntries> pointing(std::uint16_t type, const std::string& value) {
    const std::string field = value.size() <= 4 ? value : little(26, 4),
                      elsewhere = value.size() <= 4 ? little(0, 8) : value;
    return TiffEntries::first(
        bytes_in("II*" + std::string(1, '\0') + little(8, 4) + little(1, 2) + little(kPointer, 2) +
                 little(type, 2) + little(1, 4) + field + little(0, 4) + elsewhere + little(1, 2) +
                 little(tiff::kColourSpace, 2) + little(tiff::kShort, 2) + little(1, 4) + little(1, 4)));
}

std::string of_float(float value) {
    return little(std::bit_cast<std::uint32_t>(value), 4);
}
std::string of_double(double value) {
    return little(std::bit_cast<std::uint64_t>(value), 8);
}

TEST(TiffEntries, FollowAPointerThatIsAPlace) {
    for (const auto& [type, value] : {std::pair{tiff::kLong, little(34, 4)},
                                      {tiff::kFloat, of_float(34)},
                                      {tiff::kDouble, of_double(34)},
                                      {tiff::kRational, little(34, 4) + little(1, 4)}}) {
        const auto entries = pointing(std::uint16_t(type), value);
        ASSERT_TRUE(entries);
        const auto below = entries->below(kPointer);
        ASSERT_TRUE(below) << type;
        EXPECT_EQ(below->number(tiff::kColourSpace), 1);
    }
}

// What no whole number holds must not be made one: that is undefined in C++ (ISO/IEC 14882, conv.fpint).
TEST(TiffEntries, FollowNoPointerThatIsNoPlace) {
    for (const double wrong : {-1.0, 1e300, -1e300, std::numeric_limits<double>::infinity(),
                               std::numeric_limits<double>::quiet_NaN(), 0x1p64}) {
        const auto entries = pointing(tiff::kDouble, of_double(wrong));
        ASSERT_TRUE(entries);
        EXPECT_FALSE(entries->below(kPointer)) << wrong;
    }
    EXPECT_FALSE(pointing(tiff::kFloat, of_float(-2e38F))->below(kPointer));
    EXPECT_FALSE(pointing(tiff::kRational, little(34, 4) + little(0, 4))->below(kPointer)) << "over zero";
    EXPECT_FALSE(pointing(tiff::kRational, little(0, 4) + little(0, 4))->below(kPointer))
        << "nothing over zero";
    EXPECT_FALSE(pointing(tiff::kLong, little(4000, 4))->below(kPointer)) << "beyond the file";
    EXPECT_FALSE(pointing(tiff::kLong, little(34, 4))->below(kPointer + 1)) << "no such tag";
}

}  // namespace
}  // namespace fogproof::tests
