// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/full_print.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>
#include <vips/vips8>

#include "fogproof/strips/strip_print.hpp"
#include "fogproof/table/print_table.hpp"
#include "render/picture_file.hpp"
#include "render/vips_session.hpp"

namespace fogproof {
namespace {

// Codes of colours in the picture's own depth.
struct Coded {
    std::vector<std::uint16_t> wide;   // at 16 bits
    std::vector<std::uint8_t> narrow;  // at 8
};

Coded coded(std::span<const Lab> colours, const Lab& paper_white, Rendering rendering,
            const OutputProfile& profile, int bits) {
    if (bits == 16) return {profile.encode(colours, rendering, paper_white), {}};
    return {{}, profile.encode_8bit(colours, rendering, paper_white)};
}

// An image one pixel high, the form in which libvips looks pixels up.
vips::VImage as_image(const Coded& codes, int channels) {
    const auto copied = [&](const auto& values, VipsBandFormat format) {
        return vips::VImage(vips_image_new_from_memory_copy(values.data(), values.size() * sizeof values[0],
                                                            int(values.size()) / channels, 1, channels,
                                                            format));
    };
    return codes.narrow.empty() ? copied(codes.wide, VIPS_FORMAT_USHORT)
                                : copied(codes.narrow, VIPS_FORMAT_UCHAR);
}

PackedTable as_table(const Coded& codes, int channels) {
    return codes.narrow.empty() ? PackedTable(codes.wide, channels) : PackedTable(codes.narrow, channels);
}

std::vector<std::byte> as_bytes(const Coded& codes) {
    const auto bytes =
        codes.narrow.empty() ? std::as_bytes(std::span(codes.wide)) : std::as_bytes(std::span(codes.narrow));
    return {bytes.begin(), bytes.end()};
}

void save_by_strips(const Scan& scan, const CodeLines& lines, const StripPrint& print,
                    const PictureOptions& options, const std::filesystem::path& target) {
    WholeFile file(target, options.replace);
    if (!print.compress) file.require_room(pixel_bytes(lines, print));
    const bool all_count = scan.width() == scan.frame().width && scan.height() == scan.frame().height;
    const WrittenPrint written =
        print_strips(lines, print, file.temporary(), all_count ? &scan.histogram() : nullptr);
    if (options.verify) {
        file.sync();
        require_as_written(written);
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
        return coded(colours, paper_white, look.rendering, profile, options.bits);
    };
    const int channels = profile.channels();
    const int border = int(std::lround(look.border * std::max(scan.width(), scan.height())));
    const Lab border_colour = print.border().lab;
    const Coded codes = code(table.lab()), border_code = code({&border_colour, 1});

    if (const auto lines = scan.lines(); lines && picture_format(target) == PictureFormat::tiff) {
        StripPrint strips{target.string(),
                          as_table(codes, channels),
                          border,
                          {},
                          options.pixels_per_mm,
                          profile.icc(),
                          xmp_of(options),
                          options.compress,
                          options.verify};
        if (border > 0) strips.border_pixel = as_bytes(border_code);
        save_by_strips(scan, *lines, strips, options, target);
        return;
    }
    // A scan is read in its order, once: whoever wants the pixels again has them drawn again.
    const auto drawn = [&] {
        vips_ready();
        const vips::VImage picture = scan.codes().maplut(as_image(codes, channels));
        if (border == 0) return picture;
        return picture.embed(border, border, scan.width() + 2 * border, scan.height() + 2 * border,
                             vips::VImage::option()
                                 ->set("extend", VIPS_EXTEND_BACKGROUND)
                                 ->set("background", as_image(border_code, channels).getpoint(0, 0)));
    };
    save_picture(drawn, target, profile, options);
}

}  // namespace fogproof
