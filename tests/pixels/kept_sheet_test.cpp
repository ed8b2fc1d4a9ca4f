// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was written into a sheet is read out of it and lies in memory, whoever holds the file.
#include "pixels/kept_sheet.hpp"

#include <gtest/gtest.h>

#include <cstring>
#include <vector>

#include "support/rooms.hpp"
#include "support/variable.hpp"

namespace fogproof::tests {
namespace {

TEST(KeptSheet, GivesBackWhatWasWrittenOnTheDiskAndInMemory) {
    constexpr int kSide = 7, kStride = 9;
    std::vector<std::uint16_t> written(kSide * kStride);
    for (std::size_t i = 0; i < written.size(); ++i) written[i] = std::uint16_t(1000 + 31 * i);
    for (const char* folder : {"/tmp", "/nonexistent"}) {
        const Variable here("TMPDIR", folder);
        const KeptSheet sheet("drawn", kSide, kSide, sizeof(std::uint16_t));
        // The lower lines first, as workers may come.
        sheet.write(3, 4, {written.data() + 3 * kStride, kStride});
        sheet.write(0, 3, {written.data(), kStride});
        ASSERT_EQ(sheet.bytes(), sizeof(std::uint16_t) * kSide * kSide);
        const auto mapped = sheet.mapped();
        for (int y = 0; y < kSide; ++y) {
            const std::uint16_t* const line = written.data() + y * kStride;
            std::uint16_t part[4];
            sheet.read(y, 2, 4, reinterpret_cast<std::byte*>(part));
            EXPECT_EQ(std::memcmp(part, line + 2, sizeof part), 0) << folder << " line " << y;
            EXPECT_EQ(std::memcmp(static_cast<const std::uint16_t*>(mapped.get()) + y * kSide, line,
                                  sizeof(std::uint16_t) * kSide),
                      0)
                << folder << " line " << y;
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
