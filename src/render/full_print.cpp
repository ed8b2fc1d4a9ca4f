// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/full_print.hpp"

#include <algorithm>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "fogproof/table/print_table.hpp"
#include "render/picture_file.hpp"

namespace fogproof {
namespace {

// Code values of colours as an image one pixel high, the form in which libvips looks pixels up.
vips::VImage coded(std::span<const Lab> colours, const Lab& paper_white, Rendering rendering,
                   const OutputProfile& profile, int bits) {
    const auto copied = [&](const auto& codes, VipsBandFormat format) {
        return vips::VImage(vips_image_new_from_memory_copy(codes.data(), codes.size() * sizeof codes[0],
                                                            int(colours.size()), 1, profile.channels(),
                                                            format));
    };
    if (bits == 16) return copied(profile.encode(colours, rendering, paper_white), VIPS_FORMAT_USHORT);
    return copied(profile.encode_8bit(colours, rendering, paper_white), VIPS_FORMAT_UCHAR);
}

}  // namespace

double print_resolution(const Scan& scan, std::optional<double> long_side_mm, double magnification) {
    if (long_side_mm) return std::max(scan.width(), scan.height()) / *long_side_mm;
    if (const auto scanned = scan.pixels_per_mm()) return *scanned / magnification;
    return PictureOptions{}.pixels_per_mm;
}

void render_print(const Scan& scan, const PrintModel& print, const PrintLook& look,
                  const OutputProfile& profile, const PictureOptions& options,
                  const std::filesystem::path& target) {
    const Lab paper_white = print.fixed_only().lab;
    const PrintTable table(print, scan.scale());
    const auto code = [&](std::span<const Lab> colours) {
        return coded(colours, paper_white, look.rendering, profile, options.bits);
    };
    vips::VImage picture = scan.codes().maplut(code(table.lab()));

    if (const int border = int(std::lround(look.border * std::max(scan.width(), scan.height())));
        border > 0) {
        const Lab colour = print.border().lab;
        picture = picture.embed(border, border, scan.width() + 2 * border, scan.height() + 2 * border,
                                vips::VImage::option()
                                    ->set("extend", VIPS_EXTEND_BACKGROUND)
                                    ->set("background", code({&colour, 1}).getpoint(0, 0)));
    }
    save_picture(picture, target, profile, options);
}

}  // namespace fogproof
