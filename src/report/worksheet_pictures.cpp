// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/worksheet_pictures.hpp"

#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "picture/cell_pictures.hpp"
#include "report/curve_chart.hpp"
#include "report/pack_report.hpp"
#include "report/tone_chart.hpp"

namespace fogproof::report {
namespace {

constexpr int kPixels = 900;

Picture print_picture(const Scan& scan, const PlannedPrint& print) {
    const PrintSteps& steps = print.point.proof.steps;
    const bool bleached = steps.finishing.bleach_dose > 0;
    const GridCell cell{before_and_after(print.printing, steps), {}, {}};
    const CellPicture picture =
        cell_pictures(scan, {&cell, 1}, {Rendering::absolute, kPixels}, OutputProfile::named("srgb")).front();
    return {"image/jpeg",
            picture.jpeg,
            picture.width,
            picture.height,
            "Simulated print of " + print.name + (bleached ? ", before and after the bleach" : ""),
            bleached
                ? "Left of the line before the bleach, right of it after; at the right edge the same paper "
                  "only fixed."
                : "At the right edge the same paper only fixed."};
}

}  // namespace

std::vector<Block> worksheet_pictures(const Scan& scan, const PlannedPrint& print) {
    const Printing& printing = print.printing;
    const CurveRequest asked{"This print", print.point.recipe};
    std::vector<HeldRange> ranges;
    if (auto range =
            held_range("Fresh paper, grade " + grade_name(printing.target().grade), printing.fresh_print()))
        ranges.push_back(*range);
    if (auto range = held_range("This print", printing.print(print.point.proof.steps)))
        ranges.push_back(*range);
    return {
        print_picture(scan, print),
        Picture{"image/svg+xml", tones_svg(printing.frame(), ranges), 0, 0,
                "Histogram of the frame with the range of the paper", tones_words(printing.frame(), ranges)},
        Picture{"image/svg+xml", curves_svg(printing.pack(), worked_curves(printing.pack(), {&asked, 1})), 0,
                0, "Characteristic curve of the print", "Characteristic curve of the print."}};
}

}  // namespace fogproof::report
