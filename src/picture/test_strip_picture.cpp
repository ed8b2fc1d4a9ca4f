// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/test_strip_picture.hpp"

#include <algorithm>
#include <cmath>
#include <vips/vips8>

#include "picture/canvas.hpp"
#include "picture/colour_coder.hpp"
#include "picture/picture_file.hpp"
#include "picture/sheet_inks.hpp"
#include "picture/small_colours.hpp"

namespace fogproof::picture {
namespace {

// Where a band lies on the small print.
Box band_on_print(const TestStripPlace& place, PictureSize print, std::size_t band, std::size_t count) {
    const int along = place.upright ? print.height : print.width;
    const int across = place.upright ? print.width : print.height;
    const auto cut = [&](std::size_t i) {
        return int(std::lround(double(along) * double(i) / double(count)));
    };
    const int from = std::min(int(place.from * across), across - 1);
    const int wide = std::clamp(int(place.to * across) - from, 1, across - from);
    const int begin = std::min(cut(band), along - 1), length = std::max(1, cut(band + 1) - begin);
    return place.upright ? Box{from, begin, wide, length} : Box{begin, from, length, wide};
}

// All measures of the sheet, in pixels.
class StripLayout {
  public:
    StripLayout(const TestStripSheet& sheet, PictureSize print) : upright_(sheet.place.upright) {
        unit = std::max(10, std::max(print.width, print.height) / 50);
        label = {std::max(10, unit * 13 / 14), false};
        const std::size_t count = sheet.labels.size();
        for (const auto& lines : sheet.labels)
            for (const auto& words : lines)
                label_width_ = std::max(label_width_, Canvas::width_of(words, {label.pixels, true}));
        std::size_t lines = 0;
        for (const auto& each : sheet.labels) lines = std::max(lines, each.size());
        label_height_ = int(lines) * line();
        int longest = 0, wide = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const Box band = band_on_print(sheet.place, print, i, count);
            longest = std::max(longest, upright_ ? band.height : band.width);
            wide = upright_ ? band.width : band.height;
        }
        // Far enough apart for the words of a band and to tell the bands apart.
        band_pitch_ = std::max(longest, upright_ ? label_height_ : label_width_) + unit / 2;
        const int strips = int(sheet.strips.size());
        heading_width_ = upright_ ? std::max(wide, unit * 11) : int(count) * band_pitch_;
        for (const auto& strip : sheet.strips)
            heading_height_ =
                std::max(heading_height_, Canvas::height_of(strip.heading, heading_width_, label) + unit / 2);
        strip_pitch_ = heading_width_ + unit;
        const int drawn = upright_ ? label_width_ + unit + strips * strip_pitch_ : int(count) * band_pitch_;
        width = 2 * margin() + std::max(drawn, unit * 44);
        words_top = margin();
        top = words_top + Canvas::height_of(sheet.title, words_width(), title()) + unit / 2;
        for (const auto& words : sheet.subtitle)
            top += Canvas::height_of(words, words_width(), label) + unit / 2;
        top += unit;
        legend_top = top + (upright_ ? heading_height_ + int(count) * band_pitch_ + unit : 0);
        for (std::size_t i = 0; !upright_ && i < sheet.strips.size(); ++i) {
            tops_.push_back(legend_top);
            labelled_.push_back(sheet.strips[i].is_labelled ? 1 : 0);
            legend_top += heading_height_ + labels_height(i) + wide + unit * 3 / 2;
        }
        height = legend_top + margin();
        for (const auto& words : sheet.legend)
            height += Canvas::height_of(words, words_width(), label) + unit / 2;
    }

    [[nodiscard]] int margin() const { return unit * 3; }
    [[nodiscard]] int line() const { return label.pixels * 3 / 2; }
    [[nodiscard]] Type title() const { return {unit * 2, true}; }
    [[nodiscard]] int words_width() const { return width - 2 * margin(); }
    [[nodiscard]] Box heading(std::size_t strip) const {
        return {strip_left(strip), strip_top(strip), heading_width_, heading_height_};
    }
    [[nodiscard]] Box band(std::size_t strip, std::size_t i, Box on_print) const {
        const int along = int(i) * band_pitch_;
        const int below = strip_top(strip) + heading_height_;
        if (upright_) return {strip_left(strip), below + along, on_print.width, on_print.height};
        return {margin() + along, below + labels_height(strip), on_print.width, on_print.height};
    }
    /// Upright strips share the labels at their left.
    [[nodiscard]] bool has_labels(std::size_t strip) const {
        return upright_ ? strip == 0 : labelled_[strip] != 0;
    }
    [[nodiscard]] Box words_of_band(std::size_t strip, std::size_t i) const {
        const int along = int(i) * band_pitch_, below = strip_top(strip) + heading_height_;
        return upright_ ? Box{margin(), below + along, label_width_ + unit / 2, 0}
                        : Box{margin() + along, below, band_pitch_, 0};
    }

    int unit = 0, width = 0, height = 0, words_top = 0, top = 0, legend_top = 0;
    Type label;

  private:
    [[nodiscard]] int strip_left(std::size_t strip) const {
        return upright_ ? margin() + label_width_ + unit + int(strip) * strip_pitch_ : margin();
    }
    [[nodiscard]] int strip_top(std::size_t strip) const { return upright_ ? top : tops_[strip]; }

    [[nodiscard]] int labels_height(std::size_t strip) const {
        return labelled_[strip] != 0 ? label_height_ + unit / 2 : 0;
    }

    bool upright_;
    // Of strips below each other.
    std::vector<int> tops_;
    std::vector<char> labelled_;
    int label_width_ = 0, label_height_ = 0, band_pitch_ = 0, strip_pitch_ = 0;
    int heading_width_ = 0, heading_height_ = 0;
};

// The prints' colours over the bands that are drawn of them; one print at a time is held whole.
void paint_bands(Canvas& canvas, const Scan& scan, const TestStripSheet& sheet, const StripLayout& layout,
                 const OutputProfile& profile, Rendering rendering, int bits) {
    const PictureSize size = reduced_size(scan, kStripPrintPixels);
    for (std::size_t number = 0; number < sheet.prints.size(); ++number) {
        const StripPrint& print = sheet.prints[number];
        const std::vector<Lab> colours =
            small_colours(scan, print.print, size, print.local ? &*print.local : nullptr);
        const ColourCoder coder(profile, rendering, print.print.fixed_only().lab, bits);
        for (std::size_t strip = 0; strip < sheet.strips.size(); ++strip) {
            const auto& bands = sheet.strips[strip].print_of_band;
            for (std::size_t i = 0; i < bands.size(); ++i) {
                if (bands[i] != number) continue;
                const Box cut = band_on_print(sheet.place, size, i, bands.size());
                std::vector<Lab> piece;
                for (int y = cut.top; y < cut.top + cut.height; ++y) {
                    const auto first = colours.begin() + std::ptrdiff_t(y) * size.width + cut.left;
                    piece.insert(piece.end(), first, first + cut.width);
                }
                canvas.paste(layout.band(strip, i, cut), coder.codes(piece));
            }
        }
    }
}

void write_words(Canvas& canvas, const TestStripSheet& sheet, const StripLayout& layout,
                 const ColourCoder& ink) {
    Box line{layout.margin(), layout.words_top, layout.words_width(), 0};
    line.top += canvas.write(line, sheet.title, layout.title(), ink.plain(kInk)) + layout.unit / 2;
    for (const auto& words : sheet.subtitle)
        line.top += canvas.write(line, words, layout.label, ink.plain(kInk)) + layout.unit / 2;
    for (std::size_t strip = 0; strip < sheet.strips.size(); ++strip) {
        canvas.write(layout.heading(strip), sheet.strips[strip].heading, layout.label, ink.plain(kInk));
        if (!layout.has_labels(strip)) continue;
        for (std::size_t i = 0; i < sheet.labels.size(); ++i) {
            Box box = layout.words_of_band(strip, i);
            for (std::size_t j = 0; j < sheet.labels[i].size(); ++j) {
                canvas.write(box, sheet.labels[i][j], {layout.label.pixels, j == 0}, ink.plain(kInk));
                box.top += layout.line();
            }
        }
    }
    line.top = layout.legend_top;
    for (const auto& words : sheet.legend)
        line.top += canvas.write(line, words, layout.label, ink.plain(kInk)) + layout.unit / 2;
}

}  // namespace

void render_test_strip(const Scan& scan, const TestStripSheet& sheet, Rendering rendering,
                       const OutputProfile& profile, const PictureOptions& options,
                       const std::filesystem::path& target) {
    const StripLayout layout(sheet, reduced_size(scan, kStripPrintPixels));
    const ColourCoder ink(profile, rendering, sheet.prints.front().print.fixed_only().lab, options.bits);
    Canvas canvas(layout.width, layout.height, profile.channels(), options.bits, ink.plain(kSurround));
    paint_bands(canvas, scan, sheet, layout, profile, rendering, options.bits);
    write_words(canvas, sheet, layout, ink);
    const vips::VImage picture = canvas.picture();
    save_picture([&picture] { return picture; }, target, profile, options);
}

}  // namespace fogproof::picture
