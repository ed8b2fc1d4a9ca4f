// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/grid.hpp"

#include <algorithm>
#include <cmath>
#include <vips/vips8>

#include "fogproof/render/small_negative.hpp"
#include "fogproof/table/print_table.hpp"
#include "render/canvas.hpp"
#include "render/picture_file.hpp"

namespace fogproof {
namespace {

// Neutral surround, darker than any fogged white, so that whites can be told apart, and lighter than the
// blacks (ISO 3664 asks for a neutral matt surround; the lightness is our choice).
constexpr Lab kSurround{40, 0, 0}, kInk{94, 0, 0}, kFaintInk{78, 0, 0}, kMark{97, 0, 0}, kCut{100, 0, 0};
constexpr double kBorderShare = 0.045;  // of the print's longer side

// The picture's densities as whole steps, so that one table serves all its pixels. The step is worth less
// than 0.01 L* on any paper.
constexpr double kDensityStep = 1e-4;

struct Levels {
    std::vector<NegativeDensity> scale;
    std::vector<std::uint32_t> of_pixel;
};

Levels levels_of(const SmallNegative& small) {
    const auto [lowest, highest] = std::ranges::minmax(small.density);
    Levels levels;
    const auto count = std::size_t((highest.value - lowest.value) / kDensityStep + 1.5);
    for (std::size_t i = 0; i < count; ++i) levels.scale.push_back({lowest.value + kDensityStep * double(i)});
    for (const NegativeDensity density : small.density)
        levels.of_pixel.push_back(std::uint32_t((density.value - lowest.value) / kDensityStep + 0.5));
    return levels;
}

// Colours to 16-bit code values of the profile, white paper of the grid's first cell counting for relative
// rendering. For a picture of 8 bits they are the nearest 8-bit colours, so that nothing is left to round.
class Ink {
  public:
    Ink(const OutputProfile& profile, Rendering rendering, const Lab& white, int bits)
        : profile_(profile), rendering_(rendering), white_(white), bits_(bits) {}
    [[nodiscard]] std::vector<std::uint16_t> codes(std::span<const Lab> colours) const {
        return coded(colours, rendering_);
    }
    [[nodiscard]] std::vector<std::uint16_t> paper(const Lab& colour) const { return codes({&colour, 1}); }
    // Surround and words are no paper: they stay what they are.
    [[nodiscard]] std::vector<std::uint16_t> plain(const Lab& colour) const {
        return coded({&colour, 1}, Rendering::absolute);
    }

  private:
    [[nodiscard]] std::vector<std::uint16_t> coded(std::span<const Lab> colours, Rendering rendering) const {
        if (bits_ == 16) return profile_.encode(colours, rendering, white_);
        const auto narrow = profile_.encode_8bit(colours, rendering, white_);
        std::vector<std::uint16_t> codes(narrow.begin(), narrow.end());
        for (std::uint16_t& code : codes) code = std::uint16_t(code * 257);
        return codes;
    }

    const OutputProfile& profile_;
    Rendering rendering_;
    Lab white_;
    int bits_;
};

// All measures of the sheet, in pixels, from the size of one print.
struct Layout {
    Layout(const SmallNegative& small, const GridSheet& sheet);

    [[nodiscard]] int columns() const { return columns_; }
    [[nodiscard]] Box cell(int row, int column) const {
        return {left + column * (cell_width + gap), top + row * (cell_height + gap), cell_width, cell_height};
    }

    int unit, border, slip, gap, margin, row_heading, print_width, print_height, cell_width, cell_height;
    int left, top, width, height, legend_top;
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

Layout::Layout(const SmallNegative& small, const GridSheet& sheet) : columns_(int(sheet.columns.size())) {
    const int longest = std::max(small.width, small.height);
    unit = std::max(10, longest / 28);
    border = std::max(4, int(std::lround(kBorderShare * longest)));
    slip = std::max(8, longest / 16);
    gap = unit * 5 / 2;
    margin = unit * 3;
    title = {unit * 2, true, Type::Align::left};
    subtitle = {unit, false, Type::Align::left};
    heading = {unit * 3 / 2, true, Type::Align::left};
    small_heading = {unit, false, Type::Align::left};
    caption = {std::max(10, unit * 13 / 14), false, Type::Align::left};
    bold_caption = {caption.pixels, true, Type::Align::left};
    legend = caption;

    print_width = small.width + 2 * border;
    print_height = small.height + 2 * border;
    cell_width = print_width + slip;
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

void write_heading(Canvas& canvas, Box box, const std::string& words, const Layout& layout, const Ink& ink) {
    const auto cut = words.find('\n');
    canvas.write(box, words.substr(0, cut), layout.heading, ink.plain(kInk));
    box.top += heading_line(layout);
    if (cut != std::string::npos)
        canvas.write(box, words.substr(cut + 1), layout.small_heading, ink.plain(kFaintInk));
}

Lab shifted(Lab colour, double by, const LightnessShift& shift) {
    colour.l = std::clamp(colour.l + shift.factor * by, std::min(colour.l, shift.darkest),
                          std::max(colour.l, shift.lightest));
    return colour;
}

// Codes of every level of the picture.
std::vector<std::uint16_t> level_codes(const Levels& levels, const GridPanel& panel, const Ink& ink) {
    std::vector<Lab> colours = PrintTable(panel.print, levels.scale).lab();
    if (const auto& shift = panel.shift)
        for (std::size_t i = 0; i < colours.size(); ++i)
            colours[i] = shifted(colours[i], shift->by_density(levels.scale[i].value), *shift);
    return ink.codes(colours);
}

Lab border_of(const GridPanel& panel) {
    const Lab likely = panel.print.border().lab;
    return panel.shift ? shifted(likely, panel.shift->border, *panel.shift) : likely;
}

// One upright strip of a print: its border above, below and where it is the outermost, and its part of the
// picture.
void draw_panel(Canvas& canvas, Box strip, Box picture, const GridPanel& panel, const Levels& levels,
                const Ink& ink, int channels) {
    canvas.fill(strip, ink.paper(border_of(panel)));
    const auto codes = level_codes(levels, panel, ink);
    const int first = std::max(strip.left, picture.left) - picture.left;
    const int last = std::min(strip.left + strip.width, picture.left + picture.width) - picture.left;
    std::vector<std::uint16_t> pixels;
    pixels.reserve(std::size_t((last - first) * picture.height * channels));
    for (int y = 0; y < picture.height; ++y)
        for (int x = first; x < last; ++x) {
            const std::size_t level =
                levels.of_pixel[std::size_t(y) * std::size_t(picture.width) + std::size_t(x)];
            for (std::size_t c = 0; c < std::size_t(channels); ++c)
                pixels.push_back(codes[level * std::size_t(channels) + c]);
        }
    canvas.paste({picture.left + first, picture.top, last - first, picture.height}, pixels);
}

void draw_print(Canvas& canvas, Box print, Box picture, const GridCell& cell, const Levels& levels,
                const Ink& ink, int channels) {
    const int count = int(cell.panels.size());
    const auto edge = [&](int i) { return print.left + print.width * i / count; };
    for (int i = 0; i < count; ++i)
        draw_panel(canvas, {edge(i), print.top, edge(i + 1) - edge(i), print.height}, picture,
                   cell.panels[std::size_t(i)], levels, ink, channels);
    for (int i = 1; i < count; ++i) canvas.fill({edge(i) - 1, print.top, 2, print.height}, ink.plain(kCut));
}

void draw_cell(Canvas& canvas, Box box, const GridCell& cell, const SmallNegative& small,
               const Levels& levels, const Layout& layout, const Ink& ink, int channels) {
    const Box print{box.left, box.top, layout.print_width, layout.print_height};
    const Box picture{print.left + layout.border, print.top + layout.border, small.width, small.height};
    if (cell.marked) {
        const int rim = std::max(2, layout.unit / 4);
        canvas.fill({print.left - rim, print.top - rim, box.width + 2 * rim, print.height + 2 * rim},
                    ink.plain(kMark));
    }
    draw_print(canvas, print, picture, cell, levels, ink, channels);
    canvas.fill({print.left + print.width, print.top, layout.slip, print.height},
                ink.paper(cell.panels.front().print.fixed_only().lab));
    Box line{box.left, print.top + print.height + layout.unit / 2, box.width, 0};
    for (std::size_t i = 0; i < cell.caption.size(); ++i) {
        canvas.write(line, cell.caption[i], i == 0 ? layout.bold_caption : layout.caption, ink.plain(kInk));
        line.top += layout.caption.pixels * 3 / 2;
    }
}

}  // namespace

void render_grid(const Scan& scan, const GridSheet& sheet, const GridLook& look, const OutputProfile& profile,
                 const PictureOptions& options, const std::filesystem::path& target) {
    const SmallNegative small = small_negative(scan, look.cell_pixels);
    const Levels levels = levels_of(small);
    const Ink ink(profile, look.rendering, sheet.cells.front().panels.front().print.fixed_only().lab,
                  options.bits);
    const Layout layout(small, sheet);
    const int channels = profile.channels();

    Canvas canvas(layout.width, layout.height, channels, ink.plain(kSurround));
    const int words_width = layout.width - 2 * layout.margin;
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
    for (std::size_t i = 0; i < sheet.cells.size(); ++i)
        draw_cell(canvas, layout.cell(int(i) / layout.columns(), int(i) % layout.columns()), sheet.cells[i],
                  small, levels, layout, ink, channels);
    line.top = layout.legend_top;
    for (const auto& words : sheet.legend)
        line.top += canvas.write(line, words, layout.legend, ink.plain(kInk)) + layout.unit / 2;

    save_picture(canvas.picture(options.bits), target, profile, options);
}

}  // namespace fogproof
