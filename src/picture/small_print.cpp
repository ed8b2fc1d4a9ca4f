// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <vips/vips8>

#include "picture/bordered.hpp"
#include "picture/colour_coder.hpp"
#include "picture/full_print.hpp"
#include "picture/picture_file.hpp"
#include "picture/small_colours.hpp"

namespace fogproof::picture {

void render_small_print(const Scan& scan, const PrintModel& print, const PrintLook& look, int long_side,
                        const OutputProfile& profile, const PictureOptions& options,
                        const std::filesystem::path& target, const LocalPrint* local) {
    const PictureSize size = reduced_size(scan, long_side);
    const std::vector<Lab> colours = small_colours(scan, print, size, local);
    const ColourCoder coder(profile, look.rendering, print.fixed_only().lab, options.bits);
    const PrintBorder border = print_border(look.widths(size.width, size.height), look.fog.get(), print,
                                            coder, size.width, size.height);
    const vips::VImage picture =
        bordered(coder.bytes(colours), size.width, size.height, border, coder.channels(), coder.bits());
    save_picture(picture, target, profile, options);
}

}  // namespace fogproof::picture
