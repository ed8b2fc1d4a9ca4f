// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/print_painter.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "table/print_table.hpp"

namespace fogproof::picture {
namespace {

constexpr Lab kCut{100, 0, 0};

// Rounded to such steps, tones are off by less than 0.01 L* on any paper; in 8 bit, where a code is 0.3 L* or
// more, by less than 0.03.
double density_step(int bits) {
    return bits == 16 ? 1e-4 : 3e-4;
}

// Lighter by less silver, which leaves more of the paper's own tint.
Lab shifted(Lab colour, double by, const LightnessShift& shift) {
    const double likely = colour.l, room = shift.lightest.l - likely;
    colour.l = std::clamp(likely + shift.factor * by, std::min(likely, shift.darkest),
                          std::max(likely, shift.lightest.l));
    if (colour.l <= likely || room <= 0) return colour;
    const double share = (colour.l - likely) / room;
    colour.a += share * (shift.lightest.a - colour.a);
    colour.b += share * (shift.lightest.b - colour.b);
    return colour;
}

Lab border_of(const Panel& panel) {
    const Lab likely = panel.print.border().lab;
    return panel.shift ? shifted(likely, panel.shift->border, *panel.shift) : likely;
}

}  // namespace

PrintPainter::PrintPainter(const SmallNegative& small, ColourCoder ink, LocalMasks local)
    : ink_(ink), measures_({small.width, small.height}, local.fog.get()), local_(std::move(local)) {
    if (local_.masks) {
        const double scale = double(small.width) / local_.print_width;
        const auto pixels = [scale](int of_print) { return int(std::lround(of_print * scale)); };
        frame_ = {pixels(local_.frame.left), pixels(local_.frame.top),
                  std::max(1, pixels(local_.frame.width)), std::max(1, pixels(local_.frame.height))};
    }
    const auto [lowest, highest] = std::ranges::minmax(small.density);
    const double step = density_step(ink_.bits());
    const auto count = std::size_t((highest.value - lowest.value) / step + 1.5);
    std::vector<std::uint32_t> number(count);  // of a level among those that occur
    for (const NegativeDensity density : small.density)
        number[level_of_pixel_.emplace_back(std::uint32_t((density.value - lowest.value) / step + 0.5))] = 1;
    for (std::size_t level = 0; level < count; ++level)
        if (number[level] != 0) {
            number[level] = std::uint32_t(scale_.size());
            scale_.push_back({lowest.value + step * double(level)});
        }
    for (std::uint32_t& level : level_of_pixel_) level = number[level];
}

// What was drawn in the depth of the picture, as a canvas takes it.
std::vector<std::uint16_t> PrintPainter::wide_codes(std::span<const std::byte> drawn) const {
    std::vector<std::uint16_t> codes(drawn.size() / std::size_t(ink_.bits() / 8));
    if (ink_.bits() == 16)
        std::memcpy(codes.data(), drawn.data(), drawn.size());
    else
        std::ranges::transform(drawn, codes.begin(),
                               [](std::byte code) { return std::uint16_t(257 * int(code)); });
    return codes;
}

// Codes of every level of the picture.
std::vector<std::uint16_t> PrintPainter::level_codes(const Panel& panel) const {
    std::vector<Lab> colours = PrintTable(panel.print, scale_).lab();
    if (const auto& shift = panel.shift)
        for (std::size_t i = 0; i < colours.size(); ++i)
            colours[i] = shifted(colours[i], shift->by_density(scale_[i].value), *shift);
    return ink_.codes(colours);
}

// Of a canvas' codes, in the depth of the picture.
PackedTable PrintPainter::packed(std::span<const std::uint16_t> codes) const {
    if (ink_.bits() == 16) return {codes, ink_.channels()};
    std::vector<std::uint8_t> narrow;
    for (const std::uint16_t code : codes) narrow.push_back(std::uint8_t(code / 257));
    return {std::span<const std::uint8_t>(narrow), ink_.channels()};
}

// Colours between the levels' own, of all that local work makes of them.
LocalPainter PrintPainter::local_painter(const Panel& panel, std::vector<std::uint16_t> codes) const {
    std::vector<Lab> nodes = panel.local->nodes();
    if (const auto& shift = panel.shift) {
        // A tone moves as one of its lightness does where nothing is local.
        const std::vector<Lab> plain = PrintTable(panel.print, scale_).lab();
        for (Lab& node : nodes) {
            const auto same = std::ranges::lower_bound(plain, node.l, {}, &Lab::l);
            const auto level = std::size_t(same == plain.end() ? plain.size() - 1 : same - plain.begin());
            node = shifted(node, shift->by_density(scale_[level].value), *shift);
        }
    }
    const ColourCoder fine = ink_.in_16_bits();
    return {panel.local,
            local_.masks,
            frame_,
            {packed(codes), {}, fine.codes(nodes)},
            panel.local->transmitted(scale_)};
}

void PrintPainter::paint_border(Canvas& canvas, Box strip, Box picture, const Panel& panel) const {
    if (!local_.fog) return canvas.fill(strip, ink_.paper(border_of(panel)));
    std::vector<Lab> colours = border_colours(panel.print);
    if (const auto& shift = panel.shift)
        for (Lab& colour : colours) colour = shifted(colour, shift->border, *shift);
    const BorderWidths& widths = measures_.border();
    const PrintBorder border(
        widths,
        std::make_shared<const LevelGrid>(fog_over(*local_.fog, widths, picture.width, picture.height)),
        ink_.in_16_bits().codes(colours), ink_.channels(), ink_.bits());
    const int begin = strip.left - (picture.left - widths.left);
    std::vector<std::byte> drawn(std::size_t(strip.width) * border.pixel_bytes());
    for (int y = 0; y < strip.height; ++y) {
        border.draw(y, begin, begin + strip.width, measures_.print_width(), measures_.print_height(),
                    drawn.data());
        canvas.paste({strip.left, strip.top + y, strip.width, 1}, wide_codes(drawn));
    }
}

// One upright strip of a print: its border above, below and where it is the outermost, and its part of the
// picture.
void PrintPainter::paint_panel(Canvas& canvas, Box strip, Box picture, const Panel& panel) const {
    paint_border(canvas, strip, picture, panel);
    const auto codes = level_codes(panel);
    const int first = std::max(strip.left, picture.left) - picture.left;
    const int last = std::min(strip.left + strip.width, picture.left + picture.width) - picture.left;
    if (first >= last) return;
    const auto channels = std::size_t(ink_.channels());
    if (panel.local && local_.masks) {
        const LocalPainter painter = local_painter(panel, codes);
        const auto width = std::size_t(last - first);
        std::vector<std::uint16_t> tones(width);
        std::vector<std::byte> drawn(width * channels * 2 + PackedTable::kSlack);
        for (int y = 0; y < picture.height; ++y) {
            const std::uint32_t* const levels =
                level_of_pixel_.data() + std::size_t(y) * std::size_t(picture.width);
            std::copy(levels + first, levels + last, tones.begin());
            painter.draw(tones.data(), y, first, last, drawn.data());
            canvas.paste({picture.left + first, picture.top + y, last - first, 1},
                         wide_codes(std::span(drawn).first(width * channels * std::size_t(ink_.bits() / 8))));
        }
        return;
    }
    std::vector<std::uint16_t> line(std::size_t(last - first) * channels);
    for (int y = 0; y < picture.height; ++y) {
        const std::uint32_t* const levels =
            level_of_pixel_.data() + std::size_t(y) * std::size_t(picture.width);
        std::uint16_t* to = line.data();
        for (int x = first; x < last; ++x) to = std::copy_n(&codes[levels[x] * channels], channels, to);
        canvas.paste({picture.left + first, picture.top + y, last - first, 1}, line);
    }
}

void PrintPainter::paint(Canvas& canvas, int left, int top, const GridCell& cell) const {
    const Region frame = measures_.frame();
    const Box picture{left + frame.left, top + frame.top, frame.width, frame.height};
    const int width = measures_.print_width(), height = measures_.print_height();
    const int count = int(cell.panels.size());
    const auto edge = [&](int i) { return left + width * i / count; };
    for (int i = 0; i < count; ++i)
        paint_panel(canvas, {edge(i), top, edge(i + 1) - edge(i), height}, picture,
                    cell.panels[std::size_t(i)]);
    for (int i = 1; i < count; ++i) canvas.fill({edge(i) - 1, top, 2, height}, ink_.plain(kCut));
    canvas.fill({left + width, top, measures_.slip(), height},
                ink_.paper(cell.panels.front().print.fixed_only().lab));
}

}  // namespace fogproof::picture
