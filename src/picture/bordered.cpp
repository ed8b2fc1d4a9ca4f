// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/bordered.hpp"

#include <algorithm>
#include <vector>

#include "scan/vips_session.hpp"

namespace fogproof::picture {

vips::VImage image_of(std::span<const std::byte> samples, int width, int height, int channels, int bits) {
    vips_ready();
    return vips::VImage(vips_image_new_from_memory_copy(samples.data(), samples.size(), width, height,
                                                        channels,
                                                        bits == 16 ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR));
}

vips::VImage bordered(std::span<const std::byte> samples, int width, int height, const PrintBorder& border,
                      int channels, int bits) {
    const BorderWidths& widths = border.widths();
    if (widths.is_none()) return image_of(samples, width, height, channels, bits);
    const int wide = width + widths.across(), high = height + widths.down();
    const auto pixel = std::size_t(channels * bits / 8), line = std::size_t(width) * pixel;
    std::vector<std::byte> all(std::size_t(wide) * std::size_t(high) * pixel);
    for (int y = 0; y < high; ++y) {
        std::byte* const to = all.data() + std::size_t(y) * std::size_t(wide) * pixel;
        border.draw(y, 0, wide, wide, high, to);
        const int row = y - widths.top;
        if (row >= 0 && row < height)
            std::copy_n(samples.data() + std::size_t(row) * line, line,
                        to + std::size_t(widths.left) * pixel);
    }
    return image_of(all, wide, high, channels, bits);
}

}  // namespace fogproof::picture
