// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/full_print.hpp"

#include <algorithm>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "fogproof/strips/strip_print.hpp"
#include "fogproof/table/print_table.hpp"
#include "render/coded_colours.hpp"
#include "render/picture_file.hpp"
#include "render/vips_session.hpp"

namespace fogproof {
namespace {

void save_by_strips(const Scan& scan, const CodeLines& lines, const StripPrint& print,
                    const PictureOptions& options, const std::filesystem::path& target) {
    WholeFile file(target, options.replace);
    if (!print.compress) file.require_room(pixel_bytes(lines, print));
    const bool all_count = scan.width() == scan.frame().width && scan.height() == scan.frame().height;
    const WrittenPrint written =
        print_strips(lines, print, file.descriptor(), all_count ? &scan.histogram() : nullptr);
    if (options.verify) {
        file.sync();
        require_as_written(written, file.content());
    }
    file.publish();
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
        return CodedColours(colours, profile, options.bits, look.rendering, paper_white);
    };
    const int border = int(std::lround(look.border * std::max(scan.width(), scan.height())));
    const Lab border_colour = print.border().lab;
    const CodedColours codes = code(table.lab()), border_code = code({&border_colour, 1});

    if (const auto lines = scan.lines(); lines && picture_format(target) == PictureFormat::tiff) {
        StripPrint strips{target.string(),
                          codes.table(),
                          border,
                          {},
                          options.pixels_per_mm,
                          profile.icc(),
                          xmp_of(options, PictureFormat::tiff),
                          options.compress,
                          options.verify};
        if (border > 0) strips.border_pixel = border_code.bytes();
        save_by_strips(scan, *lines, strips, options, target);
        return;
    }
    // A scan is read in its order, once: whoever wants the pixels again has them drawn again.
    const auto drawn = [&] {
        vips_ready();
        const vips::VImage picture = scan.codes().maplut(codes.image(int(table.lab().size()), 1));
        if (border == 0) return picture;
        return picture.embed(border, border, scan.width() + 2 * border, scan.height() + 2 * border,
                             vips::VImage::option()
                                 ->set("extend", VIPS_EXTEND_BACKGROUND)
                                 ->set("background", border_code.image(1, 1).getpoint(0, 0)));
    };
    save_picture(drawn, target, profile, options);
}

}  // namespace fogproof
