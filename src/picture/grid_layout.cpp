// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/grid_layout.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::picture {
namespace {

int paragraphs_height(const std::vector<std::string>& paragraphs, int width, Type type, int space) {
    int height = 0;
    for (const auto& paragraph : paragraphs) height += Canvas::height_of(paragraph, width, type) + space;
    return height;
}

// The width of the widest word, or `widest` where none is wider. Setting a word takes time, and most are too
// short to matter: no letter is wider than this, in heights of the type for each byte of it.
int widest_word(const std::string& words, Type type, int widest) {
    constexpr double kWidestLetter = 1.5;
    for (std::size_t from = 0; from < words.size();) {
        const std::size_t end = std::min(words.find_first_of(" \n", from), words.size());
        if (kWidestLetter * type.pixels * double(end - from) > widest)
            widest = std::max(widest, Canvas::width_of(words.substr(from, end - from), type));
        from = end + 1;
    }
    return widest;
}

}  // namespace

int height_of(const SetLine& line, int width) {
    const int ink = Canvas::height_of(line.words, width, line.type), pixels = line.type.pixels;
    // Lines of one piece of words lie about one and a half times the type apart. Their ink, by which they are
    // measured, ends with the last one's letters, which may or may not reach below the line.
    const int wrapped = std::max(0, int(std::lround((ink - pixels) / (1.5 * pixels))));
    return std::max(line.pitch + wrapped * pixels * 3 / 2, ink + pixels / 4);
}

int height_of(const std::vector<SetLine>& lines, int width) {
    int height = 0;
    for (const SetLine& line : lines) height += height_of(line, width);
    return height;
}

GridLayout::GridLayout(const PrintMeasures& print, int longest, const GridSheet& sheet)
    : columns_(int(sheet.columns.size())), print_width_(print.width()), print_height_(print.print_height()) {
    unit = std::max(10, longest / 28);
    gap = unit * 3 / 2;
    margin = unit * 3;
    title = {unit * 2, true};
    subtitle = {unit, false};
    heading = {unit * 3 / 2, true};
    small_heading = {unit, false};
    caption = {std::max(10, unit * 13 / 14), false};
    legend = caption;

    column_width_ = std::max(print_width_, narrowest_column(sheet));
    int captions = 0;
    for (const auto& cell : sheet.cells)
        captions = std::max(captions, height_of(caption_lines(cell), column_width_));
    for (const auto& column : sheet.columns)
        heading_height_ = std::max(heading_height_, height_of(heading_lines(column), column_width_));
    for (const auto& row : sheet.rows)
        for (const SetLine& line : heading_lines(row))
            row_heading_ = std::max(row_heading_, Canvas::width_of(line.words, line.type));
    row_pitch_ = print_height_ + caption_gap() + captions + gap;

    left_ = margin + row_heading_ + unit * 3 / 2;
    width = column_left(std::size_t(columns_)) - gap + margin;
    top_ = margin + Canvas::height_of(sheet.title, words_width(), title) + unit / 2 +
           height_of(subtitle_lines(sheet), words_width()) + unit + heading_height_;
    legend_top = top_ + int(sheet.rows.size()) * row_pitch_;
    height = legend_top + paragraphs_height(sheet.legend, words_width(), legend, unit / 2) + margin;
}

// No common word is torn; a long name without a blank may be.
int GridLayout::narrowest_column(const GridSheet& sheet) const {
    constexpr int kLongestWord = 9;  // in units of the sheet
    int widest = 0;
    for (const auto& column : sheet.columns) {
        const auto lines = heading_lines(column);
        widest = widest_word(lines.back().words, small_heading,
                             std::max(widest, Canvas::width_of(lines.front().words, heading)));
    }
    for (const auto& cell : sheet.cells)
        for (const SetLine& line : caption_lines(cell)) widest = widest_word(line.words, line.type, widest);
    return std::min(widest, kLongestWord * unit) + unit / 4;  // words that just fit are wrapped all the same
}

void GridLayout::make_room(const PrintMeasures& print, const GridSheet& sheet, int in_row) {
    constexpr int kWordsOfLarge = 24;  // in units of the sheet
    large_in_row_ = in_row;
    large_width_ = print.width();
    large_height_ = print.print_height();
    large_column_ = std::max(large_width_, std::min(large_room(in_row), kWordsOfLarge * unit));
    int captions = 0;
    for (const auto& each : sheet.large) {
        large_heading_height_ =
            std::max(large_heading_height_,
                     height_of(SetLine{each.heading, heading, heading.pixels * 3 / 2}, large_column_));
        captions = std::max(captions, height_of(caption_lines(each.cell), large_column_));
    }
    large_pitch_ = large_heading_height_ + large_height_ + caption_gap() + captions + gap;
    large_top_ = legend_top;
    const int rows = (int(sheet.large.size()) + in_row - 1) / in_row;
    legend_top += rows * large_pitch_;
    height += rows * large_pitch_;
}

Box GridLayout::large_heading(std::size_t number) const {
    const int row = int(number) / large_in_row_, column = int(number) % large_in_row_;
    return {margin + column * (large_column_ + gap), large_top_ + row * large_pitch_, large_column_, 0};
}

Box GridLayout::large(std::size_t number) const {
    const Box heading_box = large_heading(number);
    return {heading_box.left, heading_box.top + large_heading_height_, large_width_, large_height_};
}

Box GridLayout::large_caption(std::size_t number) const {
    const Box print = large(number);
    return {print.left, print.top + large_height_ + caption_gap(), large_column_, 0};
}

Box GridLayout::cell(std::size_t number) const {
    const std::size_t row = number / std::size_t(columns_), column = number % std::size_t(columns_);
    return {column_left(column), top_ + int(row) * row_pitch_, print_width_, print_height_};
}

Box GridLayout::caption_of(std::size_t number) const {
    const Box print = cell(number);
    return {print.left, print.top + print_height_ + caption_gap(), column_width_, 0};
}

Box GridLayout::column_heading(std::size_t column) const {
    return {column_left(column), top_ - heading_height_, column_width_, 0};
}

Box GridLayout::row_heading(std::size_t row) const {
    return {margin, top_ + int(row) * row_pitch_, row_heading_ + unit, 0};
}

std::vector<SetLine> GridLayout::subtitle_lines(const GridSheet& sheet) const {
    std::vector<SetLine> lines;
    for (const auto& words : sheet.subtitle) lines.push_back({words, subtitle, unit * 5 / 4});
    return lines;
}

std::vector<SetLine> GridLayout::heading_lines(const std::string& words) const {
    const auto cut = words.find('\n');
    return {{words.substr(0, cut), heading, heading.pixels * 3 / 2},
            {cut == std::string::npos ? "" : words.substr(cut + 1), small_heading, small_heading.pixels * 2}};
}

std::vector<SetLine> GridLayout::caption_lines(const GridCell& cell) const {
    std::vector<SetLine> lines;
    for (const auto& words : cell.caption)
        lines.push_back({words, {caption.pixels, lines.empty()}, caption.pixels * 3 / 2});
    return lines;
}

}  // namespace fogproof::picture
