// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan met row of cells by row of cells: the same sums as a pass over it makes (passes_test.cpp holds those
// to libvips), whoever reads the lines.
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "pixels/cell_rows.hpp"
#include "pixels/passes.hpp"
#include "scan/scan.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

TEST(CellRows, AddUpToTheSumsOfAPass) {
    const TestFolder folder;
    constexpr int kWidth = 131, kHeight = 97, kAcross = 40, kDown = 30;
    const vips::VImage picture = raster<std::uint8_t>(
        kWidth, kHeight, 1, [](int x, int y, int) { return (7 * x + 11 * y * y) % 251; },
        VIPS_INTERPRETATION_B_W);
    for (const char* name : {"lines.tif", "in-order.png"}) {
        const std::string path = (folder / name).string();
        picture.write_to_file(path.c_str());
        Notes notes;
        ScanOptions options;
        options.whole = true;
        const Scan scan = Scan::open(path, options, notes);
        const auto pixels = scan.pixels();
        std::vector<std::uint16_t> values(pixels->entries());
        std::iota(values.begin(), values.end(), std::uint16_t{100});
        const auto columns = fractional_cells(kWidth, kAcross), rows = fractional_cells(kHeight, kDown);
        const std::vector<double> as_numbers(values.begin(), values.end());
        const std::vector<double> expected =
            cell_sums(*pixels, as_numbers, columns, rows, Counting::off).sums;
        std::vector<double> sums(expected.size());
        for_each_cell_row(*pixels, values, rows, [&](std::size_t row, const CellRow& lines) {
            for (std::size_t column = 0; column < columns.size(); ++column)
                for (std::size_t i = 0; i < lines.lines.size(); ++i) {
                    const Cell& cell = columns[column];
                    double sum = cell.lead_share * lines.lines[i][cell.lead] +
                                 cell.tail_share * lines.lines[i][cell.tail];
                    for (int x = cell.begin; x < cell.end; ++x) sum += lines.lines[i][x];
                    sums[row * columns.size() + column] += lines.shares[i] * sum;
                }
        });
        for (std::size_t i = 0; i < sums.size(); ++i) ASSERT_NEAR(sums[i], expected[i], 1e-6) << name << i;
    }
}

}  // namespace
}  // namespace fogproof::tests
