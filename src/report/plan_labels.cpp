// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/plan_labels.hpp"

#include <cmath>
#include <vector>

#include "base/markup.hpp"
#include "base/shell_word.hpp"
#include "base/words.hpp"
#include "reading/piece_labels.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

// The seconds that the sheet tells: whoever works by it sets these.
double as_told(const Interval& seconds) {
    const std::string told = shown(Seconds{seconds.value});
    return number_in(std::string_view(told).substr(0, told.find(' '))).value_or(seconds.value);
}

std::vector<std::string> comments(const PlannedPrint& print, const std::string& file, double head) {
    const bool anchored = print.printing.pack().darkroom.anchored;
    const double factor = std::pow(head, 1 / print.printing.pack().darkroom.enlarger.reciprocity);
    std::vector<std::string> lines{
        "The print of " + print.name + " as planned. Scan it dry with a slip beside it, then:",
        "  fogproof read SCAN --labels " + shell_word(file) + " --known NUMBER=fixed -o READINGS",
        "NUMBER is the slip's: fogproof read SCAN --labels-out PIECES.csv --picture SEEN.png shows all "
        "numbers.",
        "Change this file where you worked otherwise, or add options, which override its cells: --filter 3.",
        "If the print was cut in two and one half bleached, add --halves. If you scan it before the bleach, "
        "add --bleach 0 --strip NAME."};
    if (!anchored)
        lines.emplace_back("This pack has no seconds yet: write those that you gave into exposure_s.");
    else if (std::abs(std::log2(head)) > 0.005)
        lines.push_back(
            "exposure_s below counts in the light, magnification and f-number of the pack's own seconds: "
            "write "
            "your seconds (as planned " +
            shown(Seconds{print.point.exposure_s.value}) + ") times " + decimal(factor, 3) + ".");
    return lines;
}

}  // namespace

std::string print_labels_text(const PlannedPrint& print, const std::string& negative,
                              const std::string& file) {
    const Pack& pack = print.printing.pack();
    const Enlarger& enlarger = pack.darkroom.enlarger;
    const StartingPoint& point = print.point;
    const double head = head_factor(enlarger);
    PieceLabels labels;
    labels.kind = PieceRequest::Kind::print;
    // A file of labels holds no name that could steer whoever shows it.
    const bool is_plain = plain_line(negative) == negative;
    if (is_plain) labels.negative = negative;
    labels.callier = enlarger.callier, labels.flare = enlarger.flare;
    Reading& row = labels.strip.common;
    row.strip = print.name;
    if (pack.darkroom.anchored)
        row.exposure_s =
            std::round(100 * as_told(point.exposure_s) * std::pow(head, 1 / enlarger.reciprocity)) / 100;
    if (pack.contrast == Contrast::variable) row.filter = point.found.grade;
    row.restrainer_ml_l = point.found.restrainer_ml_l;
    row.develop_s = point.proof.steps.develop.time_s;
    if (point.bleach_s.value > 0) {
        row.bleach_s = as_told(point.bleach_s);
        row.bleach_parts = bleach_bath(pack, point.recipe).parts;
    }
    auto lines = comments(print, plain_line(file), head);
    if (!is_plain)
        lines.emplace_back(
            "The negative's name holds signs that may not stand here: --negative FILE says it.");
    return labels_text({&labels, 1}, lines);
}

}  // namespace fogproof::report
