// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/small_negative.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <vips/vips8>

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

// Adds a row of transmittances into cells.
template <class Code>
void gather(const Code* codes, const std::vector<double>& transmittance, const std::vector<Split>& columns,
            std::vector<double>& cells) {
    for (std::size_t x = 0; x < columns.size(); ++x) {
        const double t = transmittance[codes[x]];
        const auto [cell, share] = columns[x];
        cells[std::size_t(cell)] += share * t;
        if (share < 1) cells[std::size_t(cell) + 1] += (1 - share) * t;
    }
}

constexpr int kBandRows = 64;

}  // namespace

SmallNegative small_negative(const Scan& scan, int long_side) {
    const int longest = std::max(scan.width(), scan.height());
    const double scale = std::min(1.0, double(long_side) / longest);
    SmallNegative small;
    small.width = std::max(1, int(std::lround(scan.width() * scale)));
    small.height = std::max(1, int(std::lround(scan.height() * scale)));

    std::vector<double> transmittance;
    for (const NegativeDensity density : scan.scale())
        transmittance.push_back(std::pow(10.0, -density.value));
    const auto columns = splits(scan.width(), small.width), rows = splits(scan.height(), small.height);
    std::vector<double> sums(std::size_t(small.width) * std::size_t(small.height)),
        row(std::size_t(small.width));

    const auto add_row = [&](int y, const VipsPel* pixels, bool wide) {
        std::ranges::fill(row, 0.0);
        if (wide)
            gather(reinterpret_cast<const std::uint16_t*>(pixels), transmittance, columns, row);
        else
            gather(pixels, transmittance, columns, row);
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

    const double area = double(scan.width()) / small.width * (double(scan.height()) / small.height);
    for (const double sum : sums) small.density.push_back({-std::log10(sum / area)});
    return small;
}

std::vector<NegativeDensity> densities_in(const SmallNegative& small, const Scan& scan,
                                          const Region& region) {
    const Region frame = scan.frame();
    const double scale = double(small.width) / scan.width();
    const auto edge = [scale](int pixels, int most) {
        return std::clamp(int(std::lround(pixels * scale)), 0, most);
    };
    const int left = edge(region.left - frame.left, small.width),
              top = edge(region.top - frame.top, small.height);
    const int right = edge(region.left - frame.left + region.width, small.width),
              bottom = edge(region.top - frame.top + region.height, small.height);
    if (left >= right || top >= bottom)
        throw Error(Fault::usage, "region", "lies outside of the frame, or is too small to be seen",
                    "inside " + std::to_string(frame.left) + "," + std::to_string(frame.top) + "," +
                        std::to_string(frame.width) + "," + std::to_string(frame.height));
    std::vector<NegativeDensity> inside;
    for (int y = top; y < bottom; ++y) {
        const auto row = small.density.begin() + std::ptrdiff_t(y) * small.width;
        inside.insert(inside.end(), row + left, row + right);
    }
    return inside;
}

NegativeDensity mean_density(const SmallNegative& small, const Scan& scan, const Region& region) {
    const auto inside = densities_in(small, scan, region);
    double sum = 0;
    for (const NegativeDensity density : inside) sum += std::pow(10.0, -density.value);
    return {-std::log10(sum / double(inside.size()))};
}

}  // namespace fogproof
