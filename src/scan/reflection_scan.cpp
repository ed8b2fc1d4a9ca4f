// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/reflection_scan.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/base/error.hpp"
#include "scan/guarded_reading.hpp"
#include "scan/scan_channel.hpp"
#include "scan/scan_file.hpp"
#include "scan/scan_pixels.hpp"
#include "scan/vips_call.hpp"

namespace fogproof::scan {
namespace {

constexpr int kLongSide = 2400;
constexpr int kSmallestSide = 64;

// Share of every square of `factor` pixels in which some channel has its first or last code: what lies
// beyond cannot be known. A float scan has no such codes.
std::vector<float> clipped_share(const ScanFile& file, int bands, int factor) {
    return reading(file.path(), [&] {
        const vips::VImage all = file.upright();
        const vips::VImage pixels = first_bands(all, bands);
        const double last = pixels.format() == VIPS_FORMAT_UCHAR ? 255 : 65535;
        vips::VImage ends = (pixels == 0) | (pixels == last);
        if (bands > 1) ends = ends.bandor();
        const vips::VImage share =
            (ends.cast(VIPS_FORMAT_FLOAT) / 255).shrink(factor, factor).cast(VIPS_FORMAT_FLOAT).copy_memory();
        const auto* first = static_cast<const float*>(share.data());
        return std::vector<float>(first, first + std::size_t(share.width()) * std::size_t(share.height()));
    });
}

}  // namespace

ReflectionImage reflection_scan(const std::filesystem::path& path, std::optional<Encoding> encoding,
                                double max_pixels, Notes& notes) {
    const ScanFile file(path, max_pixels);
    if (std::min(file.width(), file.height()) < kSmallestSide)
        throw Error(Fault::data, path.string(),
                    std::to_string(file.width()) + " x " + std::to_string(file.height()) + " pixels",
                    "at least 64 x 64");
    const ScanChannel channel = channel_of(file, encoding, notes, Medium::paper);
    const int factor = (std::max(file.width(), file.height()) + kLongSide - 1) / kLongSide;
    const SmallScan small = small_copy({file, channel}, factor).scan;
    ReflectionImage image{small.width, small.height, double(factor), {}, {}};
    image.light.reserve(small.density.size());
    for (const float density : small.density) image.light.push_back(std::pow(10.0f, -density));
    if (file.format() == VIPS_FORMAT_FLOAT)
        image.clipped.assign(image.light.size(), 0.0f);
    else
        image.clipped = clipped_share(file, channel.bands, factor);
    image.is_coarsely_coded = file.format() == VIPS_FORMAT_UCHAR;
    image.linear_is_guess = channel.source == CodingSource::guess && !image.is_coarsely_coded;
    return image;
}

}  // namespace fogproof::scan
