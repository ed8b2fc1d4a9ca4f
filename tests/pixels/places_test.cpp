// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan whose frame is told apart into places: each pixel counts and is printed by its code and its place.
#include <gtest/gtest.h>

#include <cstring>

#include "pixels/passes.hpp"
#include "support/masked_source.hpp"
#include "support/strips.hpp"

namespace fogproof::tests {
namespace {

TEST_F(Strips, PixelsCountByTheirPlaceWhateverReadsThem) {
    for (const TiffForm& form : every_form()) {
        if (form.bits != 16 || form.samples != 1) continue;
        write_tiff(scan(), form, kWidth, kHeight, code_at);
        const auto whole = std::make_shared<const CodeLines>(lines());
        const Masked masked(whole);
        Histogram wanted(2 * masked.codes());
        std::size_t i = 0;
        for (const auto code : codes_of(*whole)) {
            ++wanted[place_at(int(i) % kWidth, int(i) / kWidth) * masked.codes() + code];
            ++i;
        }
        for (const unsigned threads : {1u, 3u})
            ASSERT_TRUE(counted(masked, {threads, kTiny}) == wanted) << testing::PrintToString(form);
        // Where nothing is told apart, the same pixels count together.
        const Histogram together = counted(*whole);
        for (std::size_t code = 0; code < masked.codes(); ++code)
            ASSERT_EQ(together[code], wanted[code] + wanted[masked.codes() + code]);
    }
}

TEST_F(Strips, PixelsArePrintedByTheTableOfTheirPlace) {
    write_tiff(scan(), {16, COMPRESSION_NONE, 1, false, 8}, kWidth, kHeight, code_at);
    const auto whole = std::make_shared<const CodeLines>(lines());
    const Masked masked(whole);
    const auto table = colours<std::uint16_t>(masked.entries(), 3);
    StripPrint print = print_of(PackedTable(table, 3));
    const Histogram counts = counted(masked);
    print_strips(masked, print, target("print.tif"), &counts, {3, kTiny});
    const auto picture = vips::VImage::new_from_file((folder / "print.tif").c_str());
    std::size_t size = 0;
    const auto* const samples = static_cast<const std::uint16_t*>(picture.write_to_memory(&size));
    const auto codes = codes_of(*whole);
    ASSERT_EQ(size, codes.size() * 3 * sizeof(std::uint16_t));
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const std::size_t entry = place_at(int(i) % kWidth, int(i) / kWidth) * masked.codes() + codes[i];
        ASSERT_EQ(std::memcmp(samples + 3 * i, table.data() + 3 * entry, 3 * sizeof(std::uint16_t)), 0) << i;
    }
    g_free(const_cast<std::uint16_t*>(samples));
    // A table of one place is none for two.
    EXPECT_THROW(print_strips(masked, print_of(PackedTable(colours<std::uint16_t>(masked.codes(), 3), 3)),
                              target("other.tif"), nullptr),
                 Error);
}

}  // namespace
}  // namespace fogproof::tests
