// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/area_means.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <vips/vips8>

#include "fogproof/strips/passes.hpp"
#include "render/reading.hpp"

namespace fogproof {
namespace {

// Where pixel i of a row lies among the cells of a shorter row: the first cell it touches and the share in
// it.
struct Split {
    int cell;
    double share;
};

std::vector<Split> splits(int pixels, int cells) {
    std::vector<Split> split;
    const double scale = double(cells) / pixels;
    for (int i = 0; i < pixels; ++i) {
        const int cell = std::min(int(i * scale), cells - 1);
        const double end = (i + 1) * scale;
        split.push_back({cell, cell + 1 < cells && end > cell + 1 ? (cell + 1 - i * scale) / scale : 1.0});
    }
    return split;
}

// Adds a row of values into cells.
template <class Code>
void gather(const Code* codes, std::span<const double> values, const std::vector<Split>& columns,
            std::vector<double>& cells) {
    for (std::size_t x = 0; x < columns.size(); ++x) {
        const double value = values[codes[x]];
        const auto [cell, share] = columns[x];
        cells[std::size_t(cell)] += share * value;
        if (share < 1) cells[std::size_t(cell) + 1] += (1 - share) * value;
    }
}

constexpr int kBandRows = 64;

}  // namespace

PictureSize reduced_size(const Scan& scan, int long_side) {
    const double scale = std::min(1.0, double(long_side) / std::max(scan.width(), scan.height()));
    return {std::max(1, int(std::lround(scan.width() * scale))),
            std::max(1, int(std::lround(scan.height() * scale)))};
}

std::vector<double> area_means(const Scan& scan, std::span<const double> values, PictureSize size) {
    const double area = double(scan.width()) / size.width * (double(scan.height()) / size.height);
    const auto means = [area](std::vector<double> sums) {
        for (double& sum : sums) sum /= area;
        return sums;
    };
    if (const auto lines = scan.lines())
        return means(cell_sums(*lines, values, fractional_cells(scan.width(), size.width),
                               fractional_cells(scan.height(), size.height), Counting::off)
                         .sums);
    const auto columns = splits(scan.width(), size.width), rows = splits(scan.height(), size.height);
    std::vector<double> sums(std::size_t(size.width) * std::size_t(size.height)),
        row(std::size_t(size.width));

    const auto add_row = [&](int y, const VipsPel* pixels, bool wide) {
        std::ranges::fill(row, 0.0);
        if (wide)
            gather(reinterpret_cast<const std::uint16_t*>(pixels), values, columns, row);
        else
            gather(pixels, values, columns, row);
        const auto [cell, share] = rows[std::size_t(y)];
        double* const here = sums.data() + std::size_t(cell) * row.size();
        for (std::size_t x = 0; x < row.size(); ++x) here[x] += share * row[x];
        if (share < 1)
            for (std::size_t x = 0; x < row.size(); ++x) here[row.size() + x] += (1 - share) * row[x];
    };
    reading(scan.path(), [&] {
        const vips::VImage codes = scan.codes();
        const bool wide = codes.format() == VIPS_FORMAT_USHORT;
        const std::unique_ptr<VipsRegion, void (*)(VipsRegion*)> region(
            vips_region_new(codes.get_image()), [](VipsRegion* held) { g_object_unref(held); });
        for (int top = 0; top < scan.height(); top += kBandRows) {
            const VipsRect band{0, top, scan.width(), std::min(kBandRows, scan.height() - top)};
            if (vips_region_prepare(region.get(), &band) != 0) throw vips::VError();
            for (int y = top; y < top + band.height; ++y)
                add_row(y, VIPS_REGION_ADDR(region.get(), 0, y), wide);
        }
        return true;
    });
    return means(std::move(sums));
}

}  // namespace fogproof
