// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "report/document.hpp"

namespace fogproof::report {
namespace {

constexpr std::size_t kColumns = 100;

// Columns that a text takes: bytes of UTF-8 that continue a character take none.
std::size_t columns_of(const std::string& text) {
    return std::size_t(std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}

// Words as they stay together on a line: a number keeps its unit.
std::vector<std::string> unbroken(const std::string& words) {
    constexpr std::size_t kLongestUnit = 4;
    std::vector<std::string> kept;
    for (const std::string& word : split(plain_line(words), ' ')) {
        if (word.empty()) continue;
        const bool is_unit = !kept.empty() && kept.back().back() >= '0' && kept.back().back() <= '9' &&
                             columns_of(word) <= kLongestUnit;
        if (is_unit)
            kept.back() += " " + word;
        else
            kept.push_back(word);
    }
    return kept;
}

// Lines of so many columns at most, but for a word that alone is longer.
std::vector<std::string> lines_of(const std::string& words, std::size_t columns) {
    std::vector<std::string> lines{""};
    for (const std::string& word : unbroken(words)) {
        if (!lines.back().empty() && columns_of(lines.back()) + 1 + columns_of(word) > columns)
            lines.emplace_back();
        lines.back() += (lines.back().empty() ? "" : " ") + word;
    }
    return lines;
}

std::string wrapped(const std::string& words, const std::string& first, const std::string& rest) {
    std::string text;
    for (const std::string& line : lines_of(words, kColumns - columns_of(first)))
        text += (text.empty() ? first : rest) + line + "\n";
    return text;
}

std::string row_text(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) {
    std::vector<std::vector<std::string>> columns;
    std::size_t height = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        columns.push_back(columns_of(cells[i]) > widths[i] ? lines_of(cells[i], widths[i])
                                                           : std::vector{cells[i]});
        height = std::max(height, columns.back().size());
    }
    std::string text;
    for (std::size_t at = 0; at < height; ++at) {
        std::string line = "  ";
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const std::string cell = at < columns[i].size() ? columns[i][at] : "";
            line += cell;
            if (i + 1 < columns.size())
                line.append(widths[i] + 2 - std::min(widths[i], columns_of(cell)), ' ');
        }
        text += line.erase(line.find_last_not_of(' ') + 1) + "\n";
    }
    return text;
}

std::size_t total_of(const std::vector<std::size_t>& widths) {
    return std::accumulate(widths.begin(), widths.end(), 2 * (widths.size() - 1));
}

// The widest column gives way where a table is wider than a page of text.
void narrow(std::vector<std::size_t>& widths) {
    constexpr std::size_t kNarrowest = 24, kInset = 2;
    const std::size_t total = total_of(widths);
    if (total + kInset <= kColumns) return;
    auto& widest = *std::ranges::max_element(widths);
    const std::size_t rest = total - widest + kInset;
    widest = std::max(kNarrowest, rest < kColumns ? kColumns - rest : 0);
}

std::vector<std::string> plain_lines(std::vector<std::string> cells) {
    for (auto& cell : cells) cell = plain_line(cell);
    return cells;
}

struct AsText {
    std::string operator()(const Paragraph& block) const { return wrapped(block.words, "  ", "  "); }
    std::string operator()(const Listing& block) const {
        std::vector<std::size_t> widths(block.heads.size());
        const auto widen = [&](const std::vector<std::string>& cells) {
            for (std::size_t i = 0; i < cells.size(); ++i)
                widths[i] = std::max(widths[i], columns_of(cells[i]));
        };
        std::vector<std::vector<std::string>> rows;
        for (const auto& row : block.rows) rows.push_back(plain_lines(row));
        widen(block.heads);
        std::ranges::for_each(rows, widen);
        narrow(widths);
        std::string text = wrapped(block.caption, "  ", "  ") + row_text(block.heads, widths);
        text += "  " + std::string(total_of(widths), '-') + "\n";
        for (const auto& row : rows) text += row_text(row, widths);
        return text;
    }
    std::string operator()(const Steps& block) const {
        std::string text;
        for (std::size_t i = 0; i < block.steps.size(); ++i)
            text += wrapped(block.steps[i], "  [ ] " + std::to_string(i + 1) + ". ", "         ");
        return text;
    }
    std::string operator()(const Blanks& block) const {
        std::string text;
        for (const auto& label : block.labels)
            text += "  " + label + " " +
                    std::string(kColumns - std::min(kColumns - 20, columns_of(label)) - 23, '_') + "\n";
        return text;
    }
    std::string operator()(const Caution& block) const {
        std::string text;
        for (const auto& words : block.words) text += wrapped(words, "  ! ", "    ");
        return text;
    }
    std::string operator()(const Picture&) const { return {}; }
    std::string operator()(const Pictures&) const { return {}; }
};

}  // namespace

std::string document_text(const Document& document) {
    const std::string title = plain_line(document.title);
    std::string text = title + "\n" + std::string(columns_of(title), '=') + "\n";
    for (const auto& line : document.lead) text += wrapped(line, "", "");
    for (const Section& section : document.sections) {
        std::string body;
        for (const Block& block : section.blocks) {
            const std::string words = std::visit(AsText{}, block);
            if (!body.empty() && !words.empty()) body += "\n";
            body += words;
        }
        // Nothing but pictures.
        if (body.empty()) continue;
        if (!section.heading.empty()) text += "\n" + plain_line(section.heading) + "\n";
        text += body;
    }
    return text;
}

}  // namespace fogproof::report
