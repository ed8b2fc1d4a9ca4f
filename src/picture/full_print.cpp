// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/full_print.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>
#include <vips/vips8>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "picture/colour_coder.hpp"
#include "picture/drawn_image.hpp"
#include "picture/picture_file.hpp"
#include "pixels/tiff_print.hpp"
#include "table/print_table.hpp"

namespace fogproof::picture {
namespace {

// What a print is drawn with, whatever the file it goes into.
struct Drawing {
    const Scan& scan;
    PackedTable table;
    std::shared_ptr<const LocalPainter> local;
    PrintBorder border;
};

void save_as_tiff(const Drawing& drawing, const OutputProfile& profile, const PictureOptions& options,
                  const std::filesystem::path& target) {
    const Scan& scan = drawing.scan;
    StripPrint print{target.string(),       drawing.table, drawing.border,
                     options.pixels_per_mm, profile.icc(), xmp_of(options, PictureFormat::tiff),
                     options.compress,      options.verify};
    print.local = drawing.local;
    const auto source = scan.pixels();
    WholeFile file(target, options.replace);
    if (!print.compress) file.require_room(pixel_bytes(*source, print));
    const bool all_count = scan.width() == scan.frame().width && scan.height() == scan.frame().height;
    const WrittenPrint written =
        print_strips(*source, print, file.descriptor(), all_count ? &scan.histogram() : nullptr);
    if (options.verify) {
        file.sync();
        require_as_written(written, file.content());
    }
    file.publish();
}

// A scan is read in its order, once: whoever wants the pixels again has them drawn again.
void save_by_libvips(const Drawing& drawing, const OutputProfile& profile, const PictureOptions& options,
                     const std::filesystem::path& target) {
    std::optional<DrawnImage> drawn;
    const auto draw = [&] {
        drawn.emplace(drawing.scan.pixels(), drawing.table, drawing.local, drawing.border);
        return drawn->image();
    };
    try {
        save_picture(draw, target, profile, options);
    } catch (const Error&) {
        if (drawn) drawn->rethrow();
        throw;
    }
}

}  // namespace

BorderWidths PrintLook::widths(int picture_width, int picture_height) const {
    if (whole_sheet) return margins_of(*whole_sheet, picture_width, picture_height);
    return BorderWidths::even(int(std::lround(border * std::max(picture_width, picture_height))));
}

void PrintLook::refuse_beyond_sheet(int picture_width, int picture_height) const {
    if (!fog || whole_sheet) return;
    const FrameOnSheet& frame = fog->frame();
    const double longer = std::max(frame.width, frame.height), margin = std::min(frame.left, frame.top);
    const double pixel = longer / std::max(picture_width, picture_height);
    if (border * longer <= margin + pixel) return;
    throw Error(Fault::usage, "--border",
                decimal(100 * border, 1) + " % is " + decimal(border * longer, 1) +
                    " mm, more than the sheet has beside the picture (" + decimal(margin, 1) + " mm)",
                "up to " + decimal(std::floor(1000 * margin / longer) / 10, 1) +
                    " %, another --margin, or --border sheet");
}

double print_resolution(const Scan& scan, std::optional<double> long_side_mm, double magnification) {
    if (long_side_mm) return std::max(scan.width(), scan.height()) / *long_side_mm;
    if (const auto scanned = scan.pixels_per_mm()) return *scanned / magnification;
    return PictureOptions{}.pixels_per_mm;
}

void render_print(const Scan& scan, const PrintModel& print, const PrintLook& look,
                  const OutputProfile& profile, const PictureOptions& options,
                  const std::filesystem::path& target, const LocalPrint* local) {
    const ColourCoder coder(profile, look.rendering, print.fixed_only().lab, options.bits);
    const Drawing drawing{scan, coder.table(PrintTable(print, scan.scale()).lab()),
                          local ? local->painter(scan, profile, look.rendering, options.bits) : nullptr,
                          print_border(look.widths(scan.width(), scan.height()), look.fog.get(), print, coder,
                                       scan.width(), scan.height())};
    if (picture_format(target) == PictureFormat::tiff)
        save_as_tiff(drawing, profile, options, target);
    else
        save_by_libvips(drawing, profile, options, target);
}

}  // namespace fogproof::picture
