// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan whose frame is told apart into places: each pixel counts and is printed by its code and its place.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>
#include <initializer_list>
#include <utility>

#include "fogproof/base/error.hpp"
#include "pixels/entry_sums.hpp"
#include "pixels/passes.hpp"
#include "support/masked_source.hpp"
#include "support/strips.hpp"

namespace fogproof::tests {
namespace {

constexpr double kRounding = 1e-13;  // of sums of some thousand numbers

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

// How much of a pixel lies between two places of a line, in pixels.
double share_within(int pixel, double begin, double end) {
    return std::max(0.0, std::min(pixel + 1.0, end) - std::max(double(pixel), begin));
}

TEST_F(Strips, CellsAreSummedByTheValuesOfTheirPlaces) {
    constexpr int kAcross = 7, kDown = 5;  // cells cut pixels, and the border of the disc cuts cells
    const double wide = double(kWidth) / kAcross, high = double(kHeight) / kDown;
    for (const int bits : {16, 8}) {
        write_tiff(scan(), {bits, COMPRESSION_NONE, 1, false, 8}, kWidth, kHeight, code_at);
        const auto whole = std::make_shared<const CodeLines>(lines());
        const Masked masked(whole);
        std::vector<double> values;
        for (std::size_t entry = 0; entry < masked.entries(); ++entry)
            values.push_back(entry < masked.codes() ? double(entry) : 7.0 + 3.0 * double(entry));
        const auto columns = fractional_cells(kWidth, kAcross), rows = fractional_cells(kHeight, kDown);

        std::vector<double> wanted(kAcross * kDown);
        for (int y = 0; y < kHeight; ++y)
            for (int x = 0; x < kWidth; ++x) {
                const auto code = std::size_t(code_at(x, y, 0)) & (masked.codes() - 1);
                const double value = values[place_at(x, y) * masked.codes() + code];
                for (int row = 0; row < kDown; ++row)
                    for (int column = 0; column < kAcross; ++column)
                        wanted[std::size_t(row * kAcross + column)] +=
                            value * share_within(x, column * wide, (column + 1) * wide) *
                            share_within(y, row * high, (row + 1) * high);
            }
        const CellSums seen = cell_sums(masked, values, columns, rows, Counting::on, {2, kTiny});
        ASSERT_EQ(seen.sums.size(), wanted.size());
        for (std::size_t cell = 0; cell < wanted.size(); ++cell)
            ASSERT_NEAR(seen.sums[cell], wanted[cell], kRounding * wanted[cell]) << cell;
        EXPECT_EQ(seen.counts, counted(masked));
        for (const unsigned threads : {1u, 5u})
            EXPECT_EQ(cell_sums(masked, values, columns, rows, Counting::off, {threads, kTiny}).sums,
                      seen.sums);

        // Together with other values over other cells, each is what it is alone.
        std::vector<double> squares;
        for (const double value : values) squares.push_back(value * value);
        const auto one = fractional_cells(kWidth, 1), all = fractional_cells(kHeight, kHeight);
        const CellValues both[] = {{values, columns, rows}, {squares, one, all}};
        EXPECT_EQ(cell_sums(masked, both, {3, kTiny}),
                  (std::vector{seen.sums, cell_sums(masked, squares, one, all, Counting::off).sums}));

        // Under a mask whose places are all alike, to the last bit what it is without one.
        std::vector<double> plain(values.begin(), values.begin() + std::ptrdiff_t(masked.codes()));
        std::vector<double> alike = plain;
        alike.insert(alike.end(), plain.begin(), plain.end());
        EXPECT_EQ(cell_sums(masked, alike, columns, rows, Counting::off).sums,
                  cell_sums(*whole, plain, columns, rows, Counting::off).sums);
        // Values of one place are none for two.
        EXPECT_THROW(static_cast<void>(cell_sums(masked, plain, columns, rows, Counting::off)), Error);
    }
}

TEST(EntrySums, TellAPixelOfAnotherCodeOrPlaceAndAnExchangeOfTwo) {
    Histogram counts(2 * 65536);
    counts[3] = 5;
    counts[900] = 2;
    counts[65536 + 20] = 4;
    const EntrySums sums = sums_of(counts);
    EXPECT_EQ(sums.pixels, 11u);
    EXPECT_EQ(sums.entries, 5u * 3 + 2u * 900 + 4u * 65556);
    EXPECT_EQ(sums.squares, 5u * 9 + 2u * 810000 + 4u * 65556ull * 65556);
    const auto moved = [&](std::initializer_list<std::pair<std::size_t, std::size_t>> pixels) {
        Histogram other = counts;
        for (const auto& [from, to] : pixels) {
            --other[from];
            ++other[to];
        }
        return sums_of(other);
    };
    EXPECT_NE(moved({{3, 4}}), sums) << "a code";
    EXPECT_NE(moved({{65556, 20}}), sums) << "a place";
    EXPECT_NE(moved({{3, 4}, {900, 899}}), sums) << "a code more and a code less";
}

}  // namespace
}  // namespace fogproof::tests
