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
/// Pages only: a picture, words that stand for it, a caption.
struct Picture {
    std::string media_type, bytes;
    int width = 0, height = 0;
    std::string words, caption;
};
using Block = std::variant<Paragraph, Listing, Steps, Blanks, Caution, Picture>;

struct Section {
    std::string heading;
    std::vector<Block> blocks;
};
struct Document {
    std::string title;
    std::vector<std::string> lead;
    std::vector<Section> sections;
};

/// Lines of at most 100 columns, tables excepted where their cells need more.
[[nodiscard]] std::string document_text(const Document&);
/// A self-contained page for A4 and Letter, without script, without network.
[[nodiscard]] std::string document_page(const Document&);

}  // namespace fogproof::report
