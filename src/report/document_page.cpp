// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <utility>

#include "base/version.hpp"
#include "base/words.hpp"
#include "report/document.hpp"
#include "report/html_text.hpp"
#include "report/worksheet_style.hpp"

namespace fogproof::report {
namespace {

// Black on white on black, to be seen on any tone.
std::string frame_of(const Mark& mark, std::string_view kind) {
    const auto number = [](double value) { return decimal(value, 1); };
    return html::element("rect",
                         {{"class", kind},
                          {"x", number(mark.left)},
                          {"y", number(mark.top)},
                          {"width", number(mark.right - mark.left)},
                          {"height", number(mark.bottom - mark.top)}},
                         {});
}

// Inside the frame where it is wide enough for the words, else above it, or below it, or, where it reaches
// from edge to edge, across it.
std::string words_of(const Mark& mark, const Picture& picture) {
    constexpr double kInset = 10, kLine = 30, kLetter = 20;  // pixels of the picture; a bold letter's at most
    const double width = kLetter * double(mark.words.size());
    double left = mark.left + kInset, line = mark.top + kLine;
    if (left + width > mark.right) {
        if (mark.top > kLine + kInset)
            line = mark.top - kInset;
        else if (mark.bottom + kLine + kInset < picture.height)
            line = mark.bottom + kLine;
        left = std::max(0.0, std::min(mark.left, picture.width - width));
    }
    return html::worded("text", mark.words, {{"x", decimal(left, 1)}, {"y", decimal(line, 1)}});
}

std::string marked(const Picture& picture) {
    const std::string width = std::to_string(picture.width), height = std::to_string(picture.height);
    std::string drawn = html::element(
        "image",
        {{"href", html::data_uri(picture.media_type, picture.bytes)}, {"width", width}, {"height", height}},
        {});
    for (const Mark& mark : picture.marks)
        drawn += frame_of(mark, "around") + frame_of(mark, "mark") + words_of(mark, picture);
    return html::element("svg",
                         {{"class", "marked"},
                          {"viewBox", "0 0 " + width + " " + height},
                          {"role", "img"},
                          {"aria-label", picture.words}},
                         drawn);
}

// Where a word in a cell is longer than any of ours, it is a name and may be torn. A dilution never is.
bool may_be_torn(const std::string& words) {
    constexpr std::size_t kLongestWord = 16;
    return std::ranges::any_of(split(words, ' '),
                               [](const std::string& word) { return word.size() > kLongestWord; });
}

std::string row_head(const std::string& words) {
    return may_be_torn(words) ? html::worded("th", words, {{"scope", "row"}, {"class", "torn"}})
                              : html::worded("th", words, {{"scope", "row"}});
}

std::string cell_of(const std::string& words) {
    return may_be_torn(words) ? html::worded("td", words, {{"class", "torn"}}) : html::worded("td", words);
}

struct AsMarkup {
    std::string operator()(const Paragraph& block) const { return html::worded("p", block.words); }
    std::string operator()(const Listing& block) const {
        std::string head, body;
        for (const auto& words : block.heads) head += html::worded("th", words, {{"scope", "col"}});
        for (const auto& row : block.rows) {
            std::string cells;
            for (std::size_t i = 0; i < row.size(); ++i) cells += i == 0 ? row_head(row[i]) : cell_of(row[i]);
            body += html::element("tr", {}, cells);
        }
        // Wide tables scroll on a narrow screen, by keyboard too.
        constexpr std::size_t kMany =
            6;  // columns that are too many for a phone, unless they are set smaller
        return html::element("section",
                             {{"class", block.heads.size() < kMany ? "listing" : "listing many"},
                              {"aria-label", block.caption},
                              {"tabindex", "0"}},
                             html::element("table", {},
                                           html::worded("caption", block.caption) +
                                               html::element("thead", {}, html::element("tr", {}, head)) +
                                               html::element("tbody", {}, body)));
    }
    std::string operator()(const Steps& block) const {
        std::string items;
        for (const auto& step : block.steps) items += html::worded("li", step);
        return html::element("ol", {{"class", "steps"}}, items);
    }
    std::string operator()(const Blanks& block) const {
        std::string lines;
        for (const auto& label : block.labels)
            lines += html::element("div", {}, html::worded("dt", label) + html::worded("dd", ""));
        return html::element("dl", {}, lines);
    }
    std::string operator()(const Caution& block) const {
        std::string lines;
        for (const auto& words : block.words) lines += html::worded("p", words);
        return html::element("div", {{"class", "caution"}}, lines);
    }
    std::string operator()(const Picture& block) const {
        if (!block.marks.empty())
            return html::element("figure", {}, marked(block) + html::worded("figcaption", block.caption));
        const std::string shown =
            block.media_type == "image/svg+xml"
                ? html::drawing(block.bytes, block.words)
                : html::picture(block.media_type, block.bytes, block.words, block.width, block.height);
        return html::element("figure", {}, shown + html::worded("figcaption", block.caption));
    }
    std::string operator()(const Pictures& block) const {
        std::string figures;
        for (const Picture& picture : block.pictures) figures += (*this)(picture);
        return html::element("div", {{"class", "small"}}, figures);
    }
};

}  // namespace

std::string document_page(const Document& document) {
    std::string header = html::worded("h1", document.title), main;
    for (const auto& line : document.lead) header += html::worded("p", line);
    const char* const first = document.columns == Columns::two ? "columns" : "";
    for (const auto& [seen, kind] :
         {std::pair{Seen::on_sheet, first}, {Seen::on_next_sheet, "next"}, {Seen::on_screen, "onscreen"}}) {
        std::string part;
        for (const Section& section : document.sections) {
            if (section.seen != seen) continue;
            if (!section.heading.empty()) part += html::worded("h2", section.heading);
            for (const Block& block : section.blocks) part += std::visit(AsMarkup{}, block);
        }
        if (!part.empty()) main += *kind == '\0' ? part : html::element("div", {{"class", kind}}, part);
    }
    return html::page(
        {document.title,
         kWorksheetStyle,
         {},
         html::element("header", {}, header) + html::element("main", {}, main) +
             html::element("footer", {}, html::worded("p", "Worked out by fogproof " + version()))});
}

}  // namespace fogproof::report
