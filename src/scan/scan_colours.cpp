// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_colours.hpp"

#include <algorithm>

#include "scan/guarded_reading.hpp"
#include "scan/vips_call.hpp"

namespace fogproof::scan {
namespace {

constexpr int kAcross = 200;

bool holds(const Region& frame, int x, int y) {
    return x >= frame.left && y >= frame.top && x < frame.left + frame.width && y < frame.top + frame.height;
}

template <class Sample>
std::vector<ColourSample> samples_of(const vips::VImage& few, int apart, const ChannelLight& light,
                                     const Region& frame) {
    std::vector<ColourSample> made;
    const auto* at = static_cast<const Sample*>(few.data());
    for (int y = 0; y < few.height(); ++y)
        for (int x = 0; x < few.width(); ++x, at += few.bands())
            made.push_back(
                {{light[0][at[0]], light[1][at[1]], light[2][at[2]]}, holds(frame, x * apart, y * apart)});
    return made;
}

}  // namespace

std::vector<ColourSample> colour_samples(const ScanFile& file, const ScanChannel& channel,
                                         const Region& frame) {
    if (channel.bands != 3 || channel.bands_light[0].empty()) return {};
    return reading(file.path(), [&] {
        const int apart = std::max(1, std::max(file.width(), file.height()) / kAcross);
        const vips::VImage upright = file.upright();
        const vips::VImage few =
            made_by_vips([&](VipsImage** made) {
                return vips_subsample(upright.get_image(), made, apart, apart, "point", TRUE, nullptr);
            }).copy_memory();
        return few.format() == VIPS_FORMAT_UCHAR
                   ? samples_of<std::uint8_t>(few, apart, channel.bands_light, frame)
                   : samples_of<std::uint16_t>(few, apart, channel.bands_light, frame);
    });
}

}  // namespace fogproof::scan
