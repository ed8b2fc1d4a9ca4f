// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A sheet of paper for the darkroom in the abstract: what stands on it, once as plain text and once as a page
// made to be printed, black on white.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

struct Paragraph {
    std::string words;
};
/// The first column names its row.
struct Listing {
    std::string caption;
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
};
/// Things to do, each with a box to tick.
struct Steps {
    std::vector<std::string> steps;
};
/// Lines to be filled in by hand.
struct Blanks {
    std::vector<std::string> labels;
};
/// What can hurt; set apart from everything else.
struct Caution {
    std::vector<std::string> words;
};
/// A place on a picture that the sheet's words speak of, in pixels of the picture.
struct Mark {
    double left, top, right, bottom;
    std::string words;
};
/// Pages only: a picture, words that stand for it, a caption.
struct Picture {
    std::string media_type, bytes;
    int width = 0, height = 0;
    std::string words, caption;
    std::vector<Mark> marks{};  ///< drawn over it; not over drawings (SVG)
};
/// Pages only: small pictures in rows.
struct Pictures {
    std::vector<Picture> pictures;
};
using Block = std::variant<Paragraph, Listing, Steps, Blanks, Caution, Picture, Pictures>;

/// Where a section of a page is seen: on the first printed sheet, on one of its own behind it, or on a screen
/// only. Plain text has all of them.
enum class Seen { on_sheet, on_next_sheet, on_screen };
struct Section {
    std::string heading;  ///< none where it is empty
    std::vector<Block> blocks;
    Seen seen = Seen::on_sheet;
};
enum class Columns { one, two };
struct Document {
    std::string title;
    std::vector<std::string> lead;
    std::vector<Section> sections;
    Columns columns = Columns::one;  ///< of its first printed sheet
};

/// Lines of at most 100 columns, tables excepted where their cells need more.
[[nodiscard]] std::string document_text(const Document&);
/// A self-contained page for A4 and Letter, in two columns when it is printed, without script, without
/// network.
[[nodiscard]] std::string document_page(const Document&);

}  // namespace fogproof::report
