// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_pixels.hpp"

#include <algorithm>
#include <cmath>

#include "pixels/code_lines.hpp"
#include "pixels/passes.hpp"
#include "scan/vips_codes.hpp"

namespace fogproof::scan {
namespace {

constexpr float kFaintest = 1e-5f;  // light

}  // namespace

std::string words_for(const Region& region) {
    return std::to_string(region.width) + " x " + std::to_string(region.height) + " at " +
           std::to_string(region.left) + ", " + std::to_string(region.top);
}

std::unique_ptr<CodeSource> source_of(const ScanFile& file, const ScanChannel& channel, const Region& region,
                                      LineOrder order) {
    if (!file.tiff())
        return std::make_unique<VipsCodes>(
            file.path(), [file, channel] { return channel.codes(file.upright()); }, channel.light.size(),
            region, order);
    const TiffFacts& facts = file.tiff()->facts();
    Region stored = region;
    if (file.is_mirrored()) stored.left = file.width() - region.left - region.width;
    const bool is_reversed = file.is_mirrored() != (order == LineOrder::reversed);
    return std::make_unique<CodeLines>(*file.tiff(), stored,
                                       is_reversed ? LineOrder::reversed : LineOrder::as_scanned,
                                       channel.code_law(facts.samples, facts.bits));
}

Histogram counted_in(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    return counted(*source_of(file, channel, region));
}

double median_light(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    const Histogram histogram = counted_in(file, channel, region);
    const auto half = (std::uint64_t(region.width) * std::uint64_t(region.height) + 1) / 2;
    std::uint64_t reached = 0;
    for (std::size_t code = 0; code < histogram.size(); ++code)
        if ((reached += histogram[code]) >= half) return channel.light[code];
    return channel.light.back();
}

SmallCopy small_copy(const ScanFile& file, const ScanChannel& channel, int factor) {
    const auto columns = whole_cells(file.width(), factor), rows = whole_cells(file.height(), factor);
    const auto source = source_of(file, channel, {0, 0, file.width(), file.height()});
    CellSums seen = cell_sums(*source, channel.light, columns, rows, Counting::on);
    SmallCopy made{{int(columns.size()), int(rows.size()), {}}, std::move(seen.counts)};
    const double area = double(factor) * factor;
    for (const double sum : seen.sums)
        made.scan.density.push_back(-std::log10(std::max(float(sum / area), kFaintest)));
    return made;
}

}  // namespace fogproof::scan
