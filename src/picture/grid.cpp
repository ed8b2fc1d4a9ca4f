// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/grid.hpp"

#include <algorithm>
#include <cmath>
#include <vector>
#include <vips/vips8>

#include "picture/canvas.hpp"
#include "picture/picture_file.hpp"
#include "picture/print_painter.hpp"
#include "picture/sheet_inks.hpp"
#include "scan/small_negative.hpp"
#include "system/threads.hpp"

namespace fogproof::picture {
namespace {

// All measures of the sheet, in pixels, from the size of one print.
struct Layout {
    Layout(const PrintMeasures&, int longest, const GridSheet&);
    /// Puts large prints, so many in a row, between cells and legend.
    void make_room(const PrintMeasures&, const GridSheet&, int in_row);
    [[nodiscard]] int words_width() const { return width - 2 * margin; }
    /// Where the picture of a large print lies.
    [[nodiscard]] Box large(std::size_t number) const {
        const int row = int(number) / large_in_row, column = int(number) % large_in_row;
        return {margin + column * (large_width + gap), large_top + row * large_pitch + heading_line_height,
                large_width, large_height};
    }

    [[nodiscard]] int columns() const { return columns_; }
    [[nodiscard]] Box cell(int row, int column) const {
        return {left + column * (cell_width + gap), top + row * (cell_height + gap), cell_width, cell_height};
    }

    int unit, gap, margin, row_heading, print_height, cell_width, cell_height;
    int left, top, width, height, legend_top;
    int large_top = 0, large_in_row = 1, large_width = 0, large_height = 0, large_pitch = 0;
    int heading_line_height = 0;
    Type title, subtitle, heading, small_heading, caption, bold_caption, legend;

  private:
    int columns_;
};

int paragraphs_height(const std::vector<std::string>& paragraphs, int width, Type type, int space) {
    int height = 0;
    for (const auto& paragraph : paragraphs) height += Canvas::height_of(paragraph, width, type) + space;
    return height;
}

// A heading's second line stands this far below its first.
int heading_line(const Layout& layout) {
    return layout.heading.pixels * 3 / 2;
}

int heading_height(const Layout& layout) {
    return heading_line(layout) + layout.small_heading.pixels * 2;
}

Layout::Layout(const PrintMeasures& print, int longest, const GridSheet& sheet)
    : columns_(int(sheet.columns.size())) {
    unit = std::max(10, longest / 28);
    gap = unit * 3 / 2;
    margin = unit * 3;
    title = {unit * 2, true};
    subtitle = {unit, false};
    heading = {unit * 3 / 2, true};
    small_heading = {unit, false};
    caption = {std::max(10, unit * 13 / 14), false};
    bold_caption = {caption.pixels, true};
    legend = caption;

    print_height = print.print_height();
    cell_width = print.width();
    std::size_t lines = 0;
    for (const auto& cell : sheet.cells) lines = std::max(lines, cell.caption.size());
    cell_height = print_height + unit / 2 + int(lines) * (caption.pixels * 3 / 2);

    row_heading = 0;
    for (const auto& row : sheet.rows) {
        const auto cut = row.find('\n');
        row_heading = std::max(row_heading, Canvas::width_of(row.substr(0, cut), heading));
        if (cut != std::string::npos)
            row_heading = std::max(row_heading, Canvas::width_of(row.substr(cut + 1), small_heading));
    }
    left = margin + row_heading + unit * 3 / 2;
    const int right = left + columns_ * cell_width + (columns_ - 1) * gap;
    width = right + margin;
    const int words_width = width - 2 * margin;
    top = margin + Canvas::height_of(sheet.title, words_width, title) + unit / 2 +
          paragraphs_height(sheet.subtitle, words_width, subtitle, unit / 4) + unit + heading_height(*this);
    const int rows = int(sheet.rows.size());
    legend_top = top + rows * (cell_height + gap);
    height = legend_top + paragraphs_height(sheet.legend, words_width, legend, unit / 2) + margin;
}

void Layout::make_room(const PrintMeasures& print, const GridSheet& sheet, int in_row) {
    large_in_row = in_row;
    large_width = print.width();
    large_height = print.print_height();
    heading_line_height = heading_line(*this);
    std::size_t lines = 0;
    for (const auto& each : sheet.large) lines = std::max(lines, each.cell.caption.size());
    large_pitch = heading_line_height + large_height + unit / 2 + int(lines) * (caption.pixels * 3 / 2) + gap;
    large_top = legend_top;
    const int rows = (int(sheet.large.size()) + in_row - 1) / in_row;
    legend_top += rows * large_pitch;
    height += rows * large_pitch;
}

// The size at which so many large prints fit beside each other, up to three times the others.
int large_longest(const PrintMeasures& print, int longest, const Layout& layout, int in_row) {
    const int room = (layout.words_width() - (in_row - 1) * layout.gap) / in_row;
    // Rounding may add a pixel or two to border and slip.
    constexpr double kSafe = 0.99;
    return std::min(3 * longest, int(kSafe * longest * room / print.width()));
}

void write_heading(Canvas& canvas, Box box, const std::string& words, const Layout& layout,
                   const ColourCoder& ink) {
    const auto cut = words.find('\n');
    canvas.write(box, words.substr(0, cut), layout.heading, ink.plain(kInk));
    box.top += heading_line(layout);
    if (cut != std::string::npos)
        canvas.write(box, words.substr(cut + 1), layout.small_heading, ink.plain(kFaintInk));
}

// Cells lie apart from each other, so several may be painted at once.
void paint_cell(Canvas& canvas, Box box, const GridCell& cell, const PrintPainter& painter,
                const Layout& layout, const ColourCoder& ink) {
    if (!cell.mark.empty()) {
        const int rim = std::max(2, layout.unit / 4);
        canvas.fill({box.left - rim, box.top - rim, box.width + 2 * rim, layout.print_height + 2 * rim},
                    ink.plain(kMark));
    }
    painter.paint(canvas, box.left, box.top, cell);
}

void write_caption(Canvas& canvas, Box box, int print_height, const GridCell& cell, const Layout& layout,
                   const ColourCoder& ink) {
    Box line{box.left, box.top + print_height + layout.unit / 2, box.width, 0};
    for (std::size_t i = 0; i < cell.caption.size(); ++i) {
        canvas.write(line, cell.caption[i], i == 0 ? layout.bold_caption : layout.caption, ink.plain(kInk));
        line.top += layout.caption.pixels * 3 / 2;
    }
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
    Layout layout(print, longest, sheet);
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
    const int words_width = layout.words_width();
    Box line{layout.margin, layout.margin, words_width, 0};
    line.top += canvas.write(line, sheet.title, layout.title, ink.plain(kInk)) + layout.unit / 2;
    for (const auto& words : sheet.subtitle)
        line.top += canvas.write(line, words, layout.subtitle, ink.plain(kInk)) + layout.unit / 4;
    for (int column = 0; column < layout.columns(); ++column) {
        const Box cell = layout.cell(0, column);
        write_heading(canvas, {cell.left, cell.top - heading_height(layout), cell.width, 0},
                      sheet.columns[std::size_t(column)], layout, ink);
    }
    for (std::size_t row = 0; row < sheet.rows.size(); ++row) {
        const Box cell = layout.cell(int(row), 0);
        write_heading(canvas, {layout.margin, cell.top, layout.row_heading + layout.unit, 0}, sheet.rows[row],
                      layout, ink);
    }
    const auto place = [&](std::size_t i) {
        return layout.cell(int(i) / layout.columns(), int(i) % layout.columns());
    };
    const std::size_t large = sheet.large.size();
    // Setting words is as long as painting prints, and libvips sets only one line at a time.
    const auto write_words = [&] {
        for (std::size_t i = 0; i < sheet.cells.size(); ++i)
            write_caption(canvas, place(i), layout.print_height, sheet.cells[i], layout, ink);
        for (std::size_t i = 0; i < large; ++i) {
            const Box box = layout.large(i);
            canvas.write({box.left, box.top - layout.heading_line_height, box.width, 0},
                         sheet.large[i].heading, layout.heading, ink.plain(kInk));
            write_caption(canvas, box, box.height, sheet.large[i].cell, layout, ink);
        }
    };
    in_parallel(1 + large + sheet.cells.size(), [&](std::size_t job) {
        if (job == 0) return write_words();
        if (job <= large) {
            const Box box = layout.large(job - 1);
            return painters.back().paint(canvas, box.left, box.top, sheet.large[job - 1].cell);
        }
        const std::size_t cell = job - 1 - large;
        paint_cell(canvas, place(cell), sheet.cells[cell], painters.front(), layout, ink);
    });
    line.top = layout.legend_top;
    for (const auto& words : sheet.legend)
        line.top += canvas.write(line, words, layout.legend, ink.plain(kInk)) + layout.unit / 2;

    const vips::VImage picture = canvas.picture();
    save_picture([&picture] { return picture; }, file, profile, options);
}

}  // namespace fogproof::picture
