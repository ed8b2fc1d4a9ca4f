// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words of a grid have the room that they take, however narrow its columns are.
#include "picture/grid_layout.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

GridSheet worded_sheet(const std::string& name) {
    GridSheet sheet;
    sheet.title = "negative";
    sheet.subtitle = {"on Attic box: white 0.09, blank developed 0.42, black 1.74"};
    sheet.columns = {"grade 1\nISO R 128 unfogged", "1 times\n" + name};
    sheet.rows = {"no bleach", "100 %\nof clearing"};
    const GridCell cell{{},
                        {"grade 2.5, 160 s, bleach 164 s", "density 0.13 to 1.62, ISO R 90, off by 3.6 L*",
                         "empty lights 8 %, blocked darks 2 %", "burn " + name + " for 8.9 s"},
                        ""};
    sheet.cells.assign(4, cell);
    sheet.large = {{"Closest to fresh paper", cell}, {"Fresh paper", cell}};
    sheet.legend = {"Each print lies on its own border."};
    return sheet;
}

// The ink of lines written below each other: each ends above the next one's first pixel row of type, and the
// last above `end`.
void expect_room(const std::vector<SetLine>& lines, Box box, int end) {
    for (const SetLine& line : lines) {
        EXPECT_GE(height_of(line, box.width), Canvas::height_of(line.words, box.width, line.type))
            << line.words;
        box.top += height_of(line, box.width);
    }
    EXPECT_LE(box.top, end);
}

TEST(GridWords, NeverRunIntoWhatLiesBelowThem) {
    for (const std::string name : {"sky", "the very bright clouds above the ridge at the left side",
                                   "averylongnameofalocalworkwithoutanyblankinit"})
        for (const PictureSize picture :
             {PictureSize{80, 53}, {120, 80}, {160, 107}, {400, 267}, {143, 400}, {20, 400}, {400, 20}}) {
            const GridSheet sheet = worded_sheet(name);
            const PrintMeasures print(picture, nullptr);
            GridLayout layout(print, std::max(picture.width, picture.height), sheet);
            const int cells_end = layout.legend_top;
            layout.make_room(print, sheet, 2);
            for (std::size_t i = 0; i < 2; ++i) {
                expect_room(layout.heading_lines(sheet.columns[i]), layout.column_heading(i),
                            layout.cell(i).top);
                expect_room(layout.caption_lines(sheet.cells[i]), layout.caption_of(i),
                            layout.cell(i + 2).top);
                expect_room(layout.caption_lines(sheet.cells[i]), layout.caption_of(i + 2), cells_end);
                expect_room({{sheet.large[i].heading, layout.heading, layout.heading.pixels * 3 / 2}},
                            layout.large_heading(i), layout.large(i).top);
                expect_room(layout.caption_lines(sheet.large[i].cell), layout.large_caption(i),
                            layout.legend_top);
            }
            EXPECT_LE(layout.caption_of(0).left + layout.caption_of(0).width, layout.caption_of(1).left);
            EXPECT_LE(layout.large_caption(0).left + layout.large_caption(0).width,
                      layout.large_caption(1).left);
            EXPECT_LE(layout.cell(1).left + layout.cell(1).width, layout.width);
        }
}

TEST(GridWords, AreNotTornInNarrowColumns) {
    const GridSheet sheet = worded_sheet("sky");
    const PictureSize narrow{20, 400};
    const GridLayout layout(PrintMeasures(narrow, nullptr), narrow.height, sheet);
    for (const char* word : {"unfogged", "density", "blocked"})
        EXPECT_GE(layout.caption_of(0).width, Canvas::width_of(word, layout.caption)) << word;
    EXPECT_GE(layout.column_heading(0).width, Canvas::width_of("grade 1", layout.heading));
}

}  // namespace
}  // namespace fogproof::tests
