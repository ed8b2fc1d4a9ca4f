// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/worksheet_pictures.hpp"

#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "picture/cell_pictures.hpp"
#include "picture/mask_picture.hpp"
#include "report/curve_chart.hpp"
#include "report/local_words.hpp"
#include "report/pack_report.hpp"
#include "report/tone_chart.hpp"

namespace fogproof::report {
namespace {

constexpr int kPixels = 900;
constexpr int kMaskPixels = 240;

Mark mark_on(const Region& frame, double left, double top, double right, double bottom, std::string words) {
    return {frame.left + left * frame.width, frame.top + top * frame.height, frame.left + right * frame.width,
            frame.top + bottom * frame.height, std::move(words)};
}

// Where the test strip goes, and the place to watch in the bleach.
std::vector<Mark> marks_on(const Region& frame, const PlannedPrint& print) {
    std::vector<Mark> marks;
    const auto& [upright, from, to, range] = print.strip;
    if (print.cost.strip)
        marks.push_back(upright ? mark_on(frame, from, 0, to, 1, "test strip")
                                : mark_on(frame, 0, from, 1, to, "test strip"));
    if (const auto& place = print.telling)
        marks.push_back(mark_on(frame, place->left, place->top, place->right, place->bottom, "watch"));
    return marks;
}

Picture print_picture(const Scan& scan, const PlannedPrint& print, const LocalMasks& local) {
    const PrintSteps& steps = print.point.proof.steps;
    const bool bleached =
        steps.finishing.bleach_dose > 0 ||
        std::ranges::any_of(steps.local, [](const LocalStep& each) { return each.dose > 0; });
    const GridCell cell{before_and_after(print.printing, steps), {}, {}};
    const CellPicture picture =
        cell_pictures(scan, {&cell, 1}, {Rendering::absolute, kPixels}, OutputProfile::named("srgb"), local)
            .front();
    return {"image/jpeg",
            picture.jpeg,
            picture.width,
            picture.height,
            "Simulated print of " + print.name + (bleached ? ", before and after the bleach" : ""),
            bleached
                ? "Left of the line before the bleach, right of it after; at the right edge the same paper "
                  "only fixed."
                : "At the right edge the same paper only fixed.",
            marks_on(picture.frame, print)};
}

// One mask over the frame, the print faint under it: the darker, the more is done.
Picture mask_picture(const PlannedPrint& print, const Masks& masks, std::size_t work,
                     const FaintPicture& under) {
    const std::string words = local_words(print.printing, print.point.proof, work);
    const SmallPicture small = mask_jpeg(masks[work], kMaskPixels, under);
    return {"image/jpeg",
            small.jpeg,
            small.width,
            small.height,
            "Where to " + words,
            words + ", where this is dark: " + place_words(print.point.recipe.local[work]) +
                ". Its top edge is the print's."};
}

}  // namespace

WorksheetPictures worksheet_pictures(const Scan& scan, const PlannedPrint& print, const LocalMasks& local) {
    const Printing& printing = print.printing;
    const CurveRequest asked{"This print", print.point.recipe};
    std::vector<HeldRange> ranges;
    if (auto range =
            held_range("Fresh paper, grade " + printing.target().named_grade(), printing.fresh_print()))
        ranges.push_back(*range);
    if (auto range = held_range("This print", printing.print(print.point.proof.steps)))
        ranges.push_back(*range);
    WorksheetPictures pictures{{print_picture(scan, print, local)}, {}, {}};
    const std::size_t works = local.masks ? print.point.recipe.local.size() : 0;
    if (works > 0) {
        const FaintPicture under = faint_picture(scan, printing.print(print.point.proof.steps), kMaskPixels);
        for (std::size_t i = 0; i < works; ++i)
            pictures.masks.emplace_back(mask_picture(print, *local.masks, i, under));
    }
    pictures.charts = {
        Picture{"image/svg+xml", tones_svg(printing.frame(), ranges), 0, 0,
                "Histogram of the frame with the range of the paper", tones_words(printing.frame(), ranges)},
        Picture{"image/svg+xml", curves_svg(printing.pack(), worked_curves(printing.pack(), {&asked, 1})), 0,
                0, "Characteristic curve of the print", "Characteristic curve of the print."}};
    return pictures;
}

SmallPicture session_picture(const Scan& scan, const PlannedPrint& print, const LocalMasks& local) {
    constexpr int kSmallPixels = 260;
    const GridCell cell{panels(print.printing, print.point.proof, GridRequest{}), {}, {}};
    CellPicture picture = cell_pictures(scan, {&cell, 1}, {Rendering::absolute, kSmallPixels},
                                        OutputProfile::named("srgb"), local)
                              .front();
    return {std::move(picture.jpeg), picture.width, picture.height};
}

}  // namespace fogproof::report
