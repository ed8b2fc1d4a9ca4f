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

// The print's code values as an image one pixel high, the form in which libvips looks pixels up.
vips::VImage lookup(const std::vector<std::uint16_t>& codes, int channels, int bits) {
    const int entries = int(codes.size()) / channels;
    const vips::VImage wide(vips_image_new_from_memory_copy(codes.data(), codes.size() * sizeof codes[0],
                                                            entries, 1, channels, VIPS_FORMAT_USHORT));
    return bits == 16 ? wide : narrowed(wide);
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
    const auto codes = profile.encode(table.lab(), look.rendering, paper_white);
    vips::VImage picture = scan.codes().maplut(lookup(codes, profile.channels(), options.bits));

    if (const int border = int(std::lround(look.border * std::max(scan.width(), scan.height())));
        border > 0) {
        const Lab colour = print.border().lab;
        const auto border_codes = profile.encode({&colour, 1}, look.rendering, paper_white);
        std::vector<double> background;
        for (const std::uint16_t code : border_codes)
            background.push_back(options.bits == 16 ? code : (code + 128u) / 257u);
        picture = picture.embed(
            border, border, scan.width() + 2 * border, scan.height() + 2 * border,
            vips::VImage::option()->set("extend", VIPS_EXTEND_BACKGROUND)->set("background", background));
    }
    save_picture(picture, target, profile, options);
}

}  // namespace fogproof
