// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/level_picture.hpp"

#include <vips/vips8>

#include "picture/picture_file.hpp"
#include "picture/profile.hpp"
#include "scan/vips_call.hpp"

namespace fogproof::picture {

void save_levels(const LevelGrid& grid, WholeFile& file) {
    const auto picture = [&] {
        const vips::VImage bare = vips::VImage::new_from_memory(
            const_cast<std::uint16_t*>(grid.level.data()), grid.level.size() * sizeof(std::uint16_t),
            grid.width, grid.height, 1, VIPS_FORMAT_USHORT);
        return made_by_vips([&](VipsImage** made) {
            return vips_copy(bare.get_image(), made, "interpretation", VIPS_INTERPRETATION_GREY16, nullptr);
        });
    };
    PictureOptions options;
    options.compress = true;
    save_picture(picture, file, OutputProfile::named("grey"), options);
}

}  // namespace fogproof::picture
