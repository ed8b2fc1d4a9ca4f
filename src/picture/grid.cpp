// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/grid.hpp"

#include <algorithm>
#include <cstdint>
#include <span>
#include <vector>
#include <vips/vips8>

#include "picture/canvas.hpp"
#include "picture/grid_layout.hpp"
#include "picture/picture_file.hpp"
#include "picture/print_painter.hpp"
#include "picture/sheet_inks.hpp"
#include "scan/small_negative.hpp"
#include "system/threads.hpp"

namespace fogproof::picture {
namespace {

// The size at which so many large prints fit beside each other, up to three times the others.
int large_longest(const PrintMeasures& print, int longest, const GridLayout& layout, int in_row) {
    // Rounding may add a pixel or two to border and slip.
    constexpr double kSafe = 0.99;
    return std::min(3 * longest, int(kSafe * longest * layout.large_room(in_row) / print.width()));
}

void write_lines(Canvas& canvas, Box box, const std::vector<SetLine>& lines,
                 std::span<const std::uint16_t> first_ink, std::span<const std::uint16_t> ink) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
        canvas.write(box, lines[i].words, lines[i].type, i == 0 ? first_ink : ink);
        box.top += height_of(lines[i], box.width);
    }
}

// Cells lie apart from each other, so several may be painted at once.
void paint_cell(Canvas& canvas, Box box, const GridCell& cell, const PrintPainter& painter,
                const GridLayout& layout, const ColourCoder& ink) {
    if (!cell.mark.empty()) {
        const int rim = std::max(2, layout.unit / 4);
        canvas.fill({box.left - rim, box.top - rim, box.width + 2 * rim, box.height + 2 * rim},
                    ink.plain(kMark));
    }
    painter.paint(canvas, box.left, box.top, cell);
}

}  // namespace

LocalMasks local_masks_of(const Scan& scan, std::shared_ptr<const Masks> masks,
                          std::shared_ptr<const SheetFog> fog) {
    if (!masks || masks->empty()) return {};
    return {std::move(masks), scan.frame_in_print(), scan.width(), std::move(fog)};
}

void render_grid(const Scan& scan, const GridSheet& sheet, const GridLook& look, const OutputProfile& profile,
                 const PictureOptions& options, const std::filesystem::path& target) {
    WholeFile file(target, options.replace);
    render_grid(scan, sheet, look, profile, options, file);
    file.publish();
}

void render_grid(const Scan& scan, const GridSheet& sheet, const GridLook& look, const OutputProfile& profile,
                 const PictureOptions& options, WholeFile& file) {
    const PictureSize size = reduced_size(scan, look.cell_pixels);
    const PrintMeasures print(size, sheet.local.fog.get());
    const int longest = std::max(size.width, size.height);
    GridLayout layout(print, longest, sheet);
    std::vector<int> long_sides{look.cell_pixels};
    if (!sheet.large.empty()) {
        const int in_row = 2 * print.width() + layout.gap <= layout.words_width() ? 2 : 1;
        long_sides.push_back(large_longest(print, longest, layout, in_row));
        layout.make_room({reduced_size(scan, long_sides.back()), sheet.local.fog.get()}, sheet, in_row);
    }
    const ColourCoder ink(profile, look.rendering, sheet.cells.front().panels.front().print.fixed_only().lab,
                          options.bits);
    std::vector<PrintPainter> painters;  // of the cells, and of the large prints if there are any
    for (const SmallNegative& small : small_negatives(scan, long_sides))
        painters.emplace_back(small, ink, sheet.local);

    Canvas canvas(layout.width, layout.height, profile.channels(), options.bits, ink.plain(kSurround));
    Box line{layout.margin, layout.margin, layout.words_width(), 0};
    line.top += canvas.write(line, sheet.title, layout.title, ink.plain(kInk)) + layout.unit / 2;
    const auto inked = ink.plain(kInk), faint = ink.plain(kFaintInk);
    write_lines(canvas, line, layout.subtitle_lines(sheet), inked, inked);
    for (std::size_t column = 0; column < sheet.columns.size(); ++column)
        write_lines(canvas, layout.column_heading(column), layout.heading_lines(sheet.columns[column]), inked,
                    faint);
    for (std::size_t row = 0; row < sheet.rows.size(); ++row)
        write_lines(canvas, layout.row_heading(row), layout.heading_lines(sheet.rows[row]), inked, faint);
    const std::size_t large = sheet.large.size();
    const auto write_words = [&] {
        for (std::size_t i = 0; i < sheet.cells.size(); ++i)
            write_lines(canvas, layout.caption_of(i), layout.caption_lines(sheet.cells[i]), inked, inked);
        for (std::size_t i = 0; i < large; ++i) {
            canvas.write(layout.large_heading(i), sheet.large[i].heading, layout.heading, inked);
            write_lines(canvas, layout.large_caption(i), layout.caption_lines(sheet.large[i].cell), inked,
                        inked);
        }
    };
    in_parallel(1 + large + sheet.cells.size(), [&](std::size_t job) {
        if (job == 0) return write_words();
        if (job <= large) {
            const Box box = layout.large(job - 1);
            return painters.back().paint(canvas, box.left, box.top, sheet.large[job - 1].cell);
        }
        const std::size_t cell = job - 1 - large;
        paint_cell(canvas, layout.cell(cell), sheet.cells[cell], painters.front(), layout, ink);
    });
    line.top = layout.legend_top;
    for (const auto& words : sheet.legend)
        line.top += canvas.write(line, words, layout.legend, ink.plain(kInk)) + layout.unit / 2;

    const vips::VImage picture = canvas.picture();
    save_picture([&picture] { return picture; }, file, profile, options);
}

}  // namespace fogproof::picture
