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

std::unique_ptr<CodeSource> source_of(const ScanPixels& pixels, const Region& region, LineOrder order) {
    const ScanFile& file = pixels.file;
    const ScanChannel& channel = pixels.channel;
    if (pixels.turned)
        return TurnedCodes::part(pixels.turned, region, order, [tiff = file.tiff()] {
            if (tiff) tiff->require_unchanged();
        });
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

ScanPixels turned_by(double degrees, const ScanPixels& lying) {
    ScanPixels made = lying;
    made.turned = std::make_shared<const TurnedCodes>(*source_of(lying, lying.all()),
                                                      Turning(degrees, lying.width(), lying.height()));
    return made;
}

Histogram counted_in(const ScanPixels& pixels, const Region& region) {
    return counted(*source_of(pixels, region));
}

double median_light(const ScanPixels& pixels, const Region& region) {
    const Histogram histogram = counted_in(pixels, region);
    const auto half = (std::uint64_t(region.width) * std::uint64_t(region.height) + 1) / 2;
    std::uint64_t reached = 0;
    for (std::size_t code = 0; code < histogram.size(); ++code)
        if ((reached += histogram[code]) >= half) return pixels.channel.light[code];
    return pixels.channel.light.back();
}

SmallCopy small_copy(const ScanPixels& pixels, int factor) {
    const auto columns = whole_cells(pixels.width(), factor), rows = whole_cells(pixels.height(), factor);
    const auto source = source_of(pixels, pixels.all());
    CellSums seen = cell_sums(*source, pixels.channel.light, columns, rows, Counting::on);
    SmallCopy made{{int(columns.size()), int(rows.size()), {}}, std::move(seen.counts)};
    const double area = double(factor) * factor;
    for (const double sum : seen.sums)
        made.scan.density.push_back(-std::log10(std::max(float(sum / area), kFaintest)));
    return made;
}

}  // namespace fogproof::scan
