// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where the prints and words of a grid lie. All measures come from the size of one print, but words have the
// room that they take once they are set: in narrow columns they wrap.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/canvas.hpp"
#include "picture/grid.hpp"
#include "picture/print_measures.hpp"

namespace fogproof::picture {

/// Words below each other.
struct SetLine {
    std::string words;
    Type type;
    int pitch;  ///< to the next line, in pixels, where these words fill one line only
};
/// How far below the first such a line the next one begins.
[[nodiscard]] int height_of(const SetLine&, int width);
[[nodiscard]] int height_of(const std::vector<SetLine>&, int width);

class GridLayout {
  public:
    /// `longest` is the longer side of a print's picture.
    GridLayout(const PrintMeasures&, int longest, const GridSheet&);
    /// Puts large prints, so many in a row, between cells and legend.
    void make_room(const PrintMeasures&, const GridSheet&, int in_row);

    [[nodiscard]] int words_width() const { return width - 2 * margin; }
    /// Room for one of so many large prints beside each other.
    [[nodiscard]] int large_room(int in_row) const { return (words_width() - (in_row - 1) * gap) / in_row; }
    /// Where the picture of a large print lies, and its words.
    [[nodiscard]] Box large(std::size_t number) const;
    [[nodiscard]] Box large_heading(std::size_t number) const;
    [[nodiscard]] Box large_caption(std::size_t number) const;

    [[nodiscard]] int columns() const { return columns_; }
    /// Where the print of a cell lies, and its words.
    [[nodiscard]] Box cell(std::size_t number) const;
    [[nodiscard]] Box caption_of(std::size_t number) const;
    [[nodiscard]] Box column_heading(std::size_t column) const;
    [[nodiscard]] Box row_heading(std::size_t row) const;

    [[nodiscard]] std::vector<SetLine> subtitle_lines(const GridSheet&) const;
    /// The lines of a heading: a second one after '\n' is set smaller.
    [[nodiscard]] std::vector<SetLine> heading_lines(const std::string& words) const;
    /// Those under a print, the first in bold.
    [[nodiscard]] std::vector<SetLine> caption_lines(const GridCell&) const;

    int unit, gap, margin, width, height, legend_top;
    Type title, subtitle, heading, small_heading, caption, legend;

  private:
    [[nodiscard]] int caption_gap() const { return unit / 2; }
    [[nodiscard]] int column_left(std::size_t column) const {
        return left_ + int(column) * (column_width_ + gap);
    }
    /// As narrow as words still read well in.
    [[nodiscard]] int narrowest_column(const GridSheet&) const;

    int columns_, row_heading_ = 0, print_width_, print_height_, column_width_, row_pitch_, left_, top_;
    int heading_height_ = 0;
    int large_top_ = 0, large_in_row_ = 1, large_width_ = 0, large_height_ = 0, large_column_ = 0,
        large_pitch_ = 0, large_heading_height_ = 0;
};

}  // namespace fogproof::picture
