// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/version.hpp"
#include "report/document.hpp"
#include "report/html_text.hpp"
#include "report/worksheet_style.hpp"

namespace fogproof::report {
namespace {

struct AsMarkup {
    std::string operator()(const Paragraph& block) const { return html::worded("p", block.words); }
    std::string operator()(const Listing& block) const {
        std::string head, body;
        for (const auto& words : block.heads) head += html::worded("th", words, {{"scope", "col"}});
        for (const auto& row : block.rows) {
            std::string cells;
            for (std::size_t i = 0; i < row.size(); ++i)
                cells += i == 0 ? html::worded("th", row[i], {{"scope", "row"}}) : html::worded("td", row[i]);
            body += html::element("tr", {}, cells);
        }
        // Wide tables scroll on a narrow screen, by keyboard too.
        return html::element("section",
                             {{"class", "listing"}, {"aria-label", block.caption}, {"tabindex", "0"}},
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
        const std::string shown =
            block.media_type == "image/svg+xml"
                ? html::drawing(block.bytes, block.words)
                : html::picture(block.media_type, block.bytes, block.words, block.width, block.height);
        return html::element("figure", {}, shown + html::worded("figcaption", block.caption));
    }
};

}  // namespace

std::string document_page(const Document& document) {
    std::string header = html::worded("h1", document.title), main;
    for (const auto& line : document.lead) header += html::worded("p", line);
    for (const Section& section : document.sections) {
        main += html::worded("h2", section.heading);
        for (const Block& block : section.blocks) main += std::visit(AsMarkup{}, block);
    }
    return html::page(
        {document.title,
         kWorksheetStyle,
         {},
         html::element("header", {}, header) + html::element("main", {}, main) +
             html::element("footer", {}, html::worded("p", "Worked out by fogproof " + version()))});
}

}  // namespace fogproof::report
