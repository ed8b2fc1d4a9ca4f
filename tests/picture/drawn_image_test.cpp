// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/drawn_image.hpp"

#include <gtest/gtest.h>

#include <cstring>

#include "support/masked_source.hpp"
#include "support/strips.hpp"

namespace fogproof::tests {
namespace {

TEST_F(Strips, LibvipsDrawsEachPixelByTheTableOfItsPlaceInAnyPartOfThePicture) {
    write_tiff(scan(), {16, COMPRESSION_NONE, 1, false, 8}, kWidth, kHeight, code_at);
    const auto whole = std::make_shared<const CodeLines>(lines());
    const auto codes = codes_of(*whole);
    const auto table = colours<std::uint16_t>(2 * whole->codes(), 3);
    const DrawnImage drawn(std::make_unique<Masked>(whole), PackedTable(table, 3));
    const Region parts[]{{0, 0, kWidth, kHeight}, {kWidth / 3, kHeight / 4, kWidth / 2, kHeight / 2}};
    for (const auto& [left, top, width, height] : parts) {
        const auto part = drawn.image().extract_area(left, top, width, height);
        std::size_t size = 0;
        const std::unique_ptr<void, decltype(&g_free)> memory(part.write_to_memory(&size), g_free);
        const auto* const samples = static_cast<const std::uint16_t*>(memory.get());
        ASSERT_EQ(size, std::size_t(width) * std::size_t(height) * 3 * sizeof(std::uint16_t));
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x) {
                const std::size_t code = codes[std::size_t(top + y) * kWidth + std::size_t(left + x)],
                                  entry = place_at(left + x, top + y) * whole->codes() + code,
                                  pixel = std::size_t(y) * std::size_t(width) + std::size_t(x);
                ASSERT_EQ(std::memcmp(samples + 3 * pixel, table.data() + 3 * entry, 6), 0) << x << " " << y;
            }
    }
}

}  // namespace
}  // namespace fogproof::tests
