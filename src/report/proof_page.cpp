// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/proof_page.hpp"

#include <algorithm>

#include "base/version.hpp"
#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "report/curve_chart.hpp"
#include "report/html_text.hpp"
#include "report/pack_report.hpp"
#include "report/proof_page_script.hpp"
#include "report/proof_page_style.hpp"
#include "report/tone_chart.hpp"
#include "report/tray_pixels_script.hpp"
#include "report/tray_script.hpp"
#include "report/tray_style.hpp"

namespace fogproof::report {
namespace {

// "grade 2\nISO R 105" as one line.
std::string on_one_line(std::string words) {
    std::ranges::replace(words, '\n', ' ');
    return words;
}

std::string heading(const std::string& words, const char* scope) {
    const auto cut = words.find('\n');
    std::string inner = html::worded("b", words.substr(0, cut));
    if (cut != std::string::npos) inner += html::worded("span", words.substr(cut + 1));
    return html::element("th", {{"scope", scope}}, inner);
}

std::string cell(const GridSheet& sheet, std::size_t index, const CellPicture& picture) {
    const std::size_t columns = sheet.columns.size();
    const GridCell& cell = sheet.cells[index];
    const auto first_line = [](const std::string& words) { return words.substr(0, words.find('\n')); };
    const std::string name = first_line(sheet.columns[index % columns]) + ", " +
                             on_one_line(sheet.rows[index / columns]) +
                             (cell.mark.empty() ? "" : ". " + cell.mark);
    std::string words;
    for (std::size_t i = 0; i < cell.caption.size(); ++i)
        words += i == 0 ? html::element("p", {}, html::worded("strong", cell.caption[i]))
                        : html::worded("p", cell.caption[i]);
    if (!cell.mark.empty()) words += html::element("p", {}, html::worded("strong", cell.mark));
    const std::string print =
        html::element("button", {{"type", "button"}, {"class", "print"}},
                      html::picture("image/jpeg", picture.jpeg, name, picture.width, picture.height));
    const std::string figure = html::element("figure", {}, print + html::element("figcaption", {}, words));
    return cell.mark.empty() ? html::element("td", {}, figure)
                             : html::element("td", {{"class", "closest"}}, figure);
}

std::string wall(const GridSheet& sheet, std::span<const CellPicture> pictures) {
    const std::size_t columns = sheet.columns.size();
    std::string head = "<td></td>\n", body;
    for (const auto& words : sheet.columns) head += heading(words, "col");
    for (std::size_t row = 0; row < sheet.rows.size(); ++row) {
        std::string cells = heading(sheet.rows[row], "row");
        for (std::size_t i = row * columns; i < (row + 1) * columns; ++i)
            cells += cell(sheet, i, pictures[i]);
        body += html::element("tr", {}, cells);
    }
    const std::string table = html::element(
        "table", {},
        html::worded("caption",
                     "Each print on its own unexposed border, with a slip of the same paper only fixed at "
                     "its right.") +
            html::element("thead", {}, html::element("tr", {}, head)) + html::element("tbody", {}, body));
    return html::element(
        "section", {{"class", "wall"}, {"aria-labelledby", "prints"}, {"tabindex", "0"}},
        html::worded("p", "Slide the table sideways to see all prints.", {{"class", "sideways"}}) + table);
}

std::string chart(const std::string& svg, const std::string& name, const std::string& words) {
    // On a phone the drawing keeps a size that can be read, and is moved under the finger.
    const std::string moved = html::element(
        "div", {{"class", "drawing"}, {"role", "group"}, {"aria-label", name}, {"tabindex", "0"}},
        html::drawing(svg, name));
    return html::element(
        "figure", {{"class", "chart"}},
        html::worded("p", "Slide the chart sideways to see all of it.", {{"class", "sideways"}}) + moved +
            html::element("figcaption", {}, html::worded("p", words)));
}

// What the charts call the print with the mark.
std::string print_name(const WorkedGrid& grid) {
    return grid.request.recommended ? "Recommended print" : "Closest print";
}

std::string curves(const Printing& printing, const WorkedGrid& grid) {
    const Proof& print = grid.proofs[grid.marked()];
    const std::string name = print_name(grid);
    std::vector<CurveRequest> asked;
    // A curve asks the proportions of the exposures, and those stand in their seconds too.
    Recipe whole = print.recipe;
    for (std::size_t i = 0; i < print.exposures.size(); ++i) whole.exposures[i].amount = print.exposures[i];
    Recipe plain = whole;
    plain.bleach = Seconds{0};
    plain.redevelop_s = 0;
    plain.toner = Toner::none;
    asked.push_back({name + ", not bleached", plain});
    if (print.steps.finishing.bleach_dose > 0 || is_toned(print.recipe)) asked.push_back({name, whole});
    const auto worked = worked_curves(printing.pack(), asked);
    std::string words;
    for (const LabelledCurve& curve : worked) {
        words += (words.empty() ? "" : " ") + curve.label + ": ";
        words += curve.curve.iso_range ? "ISO R " + fixed(curve.curve.iso_range->value, 0)
                                       : std::string("too short for an ISO range");
        words += ", density " + fixed(curve.curve.density.front().value, 2) + " to " +
                 fixed(curve.curve.density.back().value, 2) + ".";
    }
    return chart(curves_svg(printing.pack(), worked), "Characteristic curves of the marked print", words);
}

std::string tones(const Printing& printing, const WorkedGrid& grid) {
    std::vector<HeldRange> ranges;
    if (auto range =
            held_range("Fresh paper, grade " + printing.target().named_grade(), printing.fresh_print()))
        ranges.push_back(*range);
    if (auto range = held_range(print_name(grid), printing.print(grid.proofs[grid.marked()].steps)))
        ranges.push_back(*range);
    return chart(tones_svg(printing.frame(), ranges), "Histogram of the frame with the range of the paper",
                 tones_words(printing.frame(), ranges));
}

std::string step_button(const char* key, const char* words) {
    return html::worded("button", words, {{"type", "button"}, {"data-step", key}});
}

std::string glass() {
    const std::string tools =
        step_button("ArrowLeft", "Print to the left") + step_button("ArrowRight", "Print to the right") +
        step_button("ArrowUp", "Print above") + step_button("ArrowDown", "Print below") +
        html::worded("button", "Twice as large",
                     {{"type", "button"}, {"id", "larger"}, {"aria-pressed", "false"}}) +
        html::worded("button", "Put the glass away", {{"type", "button"}, {"id", "away"}});
    return html::element(
        "dialog", {{"id", "glass"}, {"aria-labelledby", "glass-title"}},
        html::worded("h2", "Under the glass", {{"id", "glass-title"}, {"aria-live", "polite"}}) +
            html::element("div", {{"class", "tools"}}, tools) +
            html::element("section",
                          {{"class", "field"},
                           {"id", "field"},
                           {"aria-label", "The print enlarged; arrow keys move it"},
                           {"tabindex", "0"}},
                          "<img src=\"data:,\" alt=\"\" width=\"1\" height=\"1\">") +
            html::worded("p", "", {{"id", "glass-words"}}));
}

}  // namespace

int page_cell_pixels(int grid_cell_pixels) {
    constexpr int kLargest = 2000;
    return std::max(grid_cell_pixels, std::min(3 * grid_cell_pixels / 2, kLargest));
}

std::string proof_page(const Printing& printing, const WorkedGrid& grid, const GridSheet& sheet,
                       const std::string& large, std::span<const CellPicture> pictures) {
    std::string header = html::worded("h1", sheet.title);
    for (const auto& line : sheet.subtitle) header += html::worded("p", line);
    std::string legend;
    for (const auto& paragraph : sheet.legend) legend += html::worded("p", paragraph);

    const std::string main =
        large + html::worded("h2", "Prints", {{"id", "prints"}}) +
        html::worded("p",
                     "A click or the Enter key lays a print under the glass; arrow keys go from print to "
                     "print. Under the glass Shift with an arrow key shows the same spot on the next print.",
                     {{"class", "onscreen scripted"}, {"hidden", ""}}) +
        wall(sheet, pictures) + html::worded("h2", "How to read it") +
        html::element("div", {{"class", "paragraphs"}}, legend) + html::worded("h2", "Negative and paper") +
        html::element("div", {{"class", "charts"}}, tones(printing, grid) + curves(printing, grid));
    const std::string style = std::string(kProofPageStyle) + std::string(kTrayStyle),
                      script = std::string(kProofPageScript) + std::string(kTrayPixelsScript) +
                               std::string(kTrayScript);
    html::Page page{"Proofs of " + sheet.title, style, script, {}};
    page.body = html::worded("a", "To the prints", {{"class", "skip"}, {"href", "#prints"}}) +
                html::element("header", {}, header) + html::element("main", {}, main) +
                html::element("footer", {}, html::worded("p", "Drawn by fogproof " + version())) + glass();
    return html::page(page);
}

}  // namespace fogproof::report
