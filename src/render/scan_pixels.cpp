// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/scan_pixels.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "fogproof/base/error.hpp"
#include "fogproof/strips/passes.hpp"
#include "render/reading.hpp"

namespace fogproof {
namespace {

constexpr float kFaintest = 1e-5f;  // light

SmallScan density_of(std::span<const double> light, int width, int height, double area) {
    SmallScan made{width, height, {}};
    for (const double each : light)
        made.density.push_back(-std::log10(std::max(float(each / area), kFaintest)));
    return made;
}

}  // namespace

std::string words_for(const Region& region) {
    return std::to_string(region.width) + " x " + std::to_string(region.height) + " at " +
           std::to_string(region.left) + ", " + std::to_string(region.top);
}

vips::VImage part_of(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    const vips::VImage codes = channel.codes(file.upright());
    const bool is_all = region.width == codes.width() && region.height == codes.height();
    return is_all ? codes : codes.extract_area(region.left, region.top, region.width, region.height);
}

std::optional<CodeLines> lines_of(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    if (!file.strips()) return std::nullopt;
    const TiffFacts& facts = file.strips()->facts();
    CodeLines lines{*file.strips(), region, file.is_mirrored(), channel.code_law(facts.samples, facts.bits)};
    if (lines.mirror) lines.region.left = file.width() - region.left - region.width;
    return lines;
}

/// Exact counts of the codes in a region. The total is held against the area: libvips may report success for
/// a file whose last lines it could not read.
Histogram counted(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    if (const auto lines = lines_of(file, channel, region)) return counted_lines(*lines);
    Histogram histogram = reading(file.path(), [&] {
        const vips::VImage counts = part_of(file, channel, region).hist_find().cast(VIPS_FORMAT_UINT);
        const vips::VImage kept = counts.copy_memory();
        const auto* first = static_cast<const std::uint32_t*>(kept.data());
        return Histogram(first, first + kept.width());
    });
    histogram.resize(channel.light.size());
    const auto total = std::accumulate(histogram.begin(), histogram.end(), std::uint64_t{0});
    const auto area = std::uint64_t(region.width) * std::uint64_t(region.height);
    if (total != area)
        throw Error(Fault::data, file.path().string(),
                    "only " + std::to_string(total) + " pixels could be read",
                    std::to_string(area) + " as the file's header says");
    return histogram;
}

double median_light(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    const Histogram histogram = counted(file, channel, region);
    const auto half = (std::uint64_t(region.width) * std::uint64_t(region.height) + 1) / 2;
    std::uint64_t reached = 0;
    for (std::size_t code = 0; code < histogram.size(); ++code)
        if ((reached += histogram[code]) >= half) return channel.light[code];
    return channel.light.back();
}

SmallScan small_copy(const ScanFile& file, const ScanChannel& channel, int factor, Histogram* counts) {
    if (const auto lines = lines_of(file, channel, {0, 0, file.width(), file.height()})) {
        const auto columns = whole_cells(file.width(), factor), rows = whole_cells(file.height(), factor);
        CellSums seen =
            cell_sums(*lines, channel.light, columns, rows, counts != nullptr ? Counting::on : Counting::off);
        if (counts != nullptr) *counts = std::move(seen.counts);
        return density_of(seen.sums, int(columns.size()), int(rows.size()), double(factor) * factor);
    }
    std::vector<float> light(channel.light.begin(), channel.light.end());
    const vips::VImage decode(vips_image_new_from_memory_copy(light.data(), light.size() * sizeof(float),
                                                              int(light.size()), 1, 1, VIPS_FORMAT_FLOAT));
    return reading(file.path(), [&] {
        const vips::VImage codes = part_of(file, channel, {0, 0, file.width(), file.height()});
        const vips::VImage small = codes.maplut(decode).shrink(factor, factor).copy_memory();
        const auto* first = static_cast<const float*>(small.data());
        SmallScan made{small.width(), small.height(), {}};
        made.density.assign(first, first + std::size_t(small.width()) * std::size_t(small.height()));
        for (float& each : made.density) each = -std::log10(std::max(each, kFaintest));
        return made;
    });
}

}  // namespace fogproof
