// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/mask_picture.hpp"

#include <algorithm>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "picture/canvas.hpp"
#include "picture/picture_file.hpp"

namespace fogproof::picture {

SmallPicture mask_jpeg(const LevelGrid& mask, int long_side) {
    constexpr double kNone = 235, kFull = 40;  // codes of 8 bits
    const double scale = double(long_side) / std::max(mask.width, mask.height);
    SmallPicture small{{},
                       std::max(1, int(std::lround(mask.width * scale))),
                       std::max(1, int(std::lround(mask.height * scale)))};
    const OutputProfile profile = OutputProfile::named("grey");
    const std::vector<std::uint16_t> nothing{std::uint16_t(kNone * 257)};
    Canvas canvas(small.width, small.height, profile.channels(), 8, nothing);
    std::vector<std::uint16_t> line(std::size_t(small.width));
    for (int y = 0; y < small.height; ++y) {
        for (int x = 0; x < small.width; ++x)
            line[std::size_t(x)] =
                std::uint16_t(257 * std::lround(kNone + (kFull - kNone) * mask.at((x + 0.5) / small.width,
                                                                                  (y + 0.5) / small.height)));
        canvas.paste({0, y, small.width, 1}, line);
    }
    PictureOptions options;
    options.bits = 8;
    small.jpeg = jpeg_bytes(canvas.picture(), profile, options);
    return small;
}

}  // namespace fogproof::picture
