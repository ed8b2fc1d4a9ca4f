// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/bordered.hpp"

#include "scan/vips_session.hpp"

namespace fogproof::picture {

vips::VImage image_of(std::span<const std::byte> samples, int width, int height, int channels, int bits) {
    vips_ready();
    return vips::VImage(vips_image_new_from_memory_copy(samples.data(), samples.size(), width, height,
                                                        channels,
                                                        bits == 16 ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR));
}

vips::VImage bordered(const vips::VImage& image, int border, std::span<const std::byte> pixel) {
    if (border == 0) return image;
    const int bits = image.format() == VIPS_FORMAT_USHORT ? 16 : 8;
    const vips::VImage colour = image_of(pixel, 1, 1, image.bands(), bits);
    return image.embed(border, border, image.width() + 2 * border, image.height() + 2 * border,
                       vips::VImage::option()
                           ->set("extend", VIPS_EXTEND_BACKGROUND)
                           ->set("background", colour.getpoint(0, 0)));
}

}  // namespace fogproof::picture
