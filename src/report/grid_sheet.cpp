// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/grid_sheet.hpp"

#include "base/markup.hpp"
#include "base/words.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "pack/grade_words.hpp"
#include "print/recipe_head.hpp"
#include "print/toner_words.hpp"
#include "proof/panels.hpp"
#include "report/assumptions.hpp"
#include "report/cautions.hpp"
#include "report/local_words.hpp"
#include "report/shown.hpp"
#include "report/zero_words.hpp"
#include "system/threads.hpp"

namespace fogproof::report {
namespace {

// "54" of "54%", "54 %", "54s".
std::string amount_in(std::string_view told) {
    if (told.ends_with('%') || told.ends_with('s')) told.remove_suffix(1);
    return std::string(trimmed(told));
}

// What a multiple comes to: of stops as of seconds.
std::string amount_words(const LocalWork& work) {
    if (const auto* stops = std::get_if<Stops>(&work.amount))
        return (work.kind == LocalWork::Kind::dodge ? "-" : "+") + decimal(stops->value, 2) + " stop";
    if (const auto* percent = std::get_if<ClearingPercent>(&work.amount))
        return decimal(percent->value, 0) + " % of clearing";
    return decimal(std::get<Seconds>(work.amount).value, 1) + " s";
}

std::string heading(const Printing& printing, const Recipe& base, const Axis& axis, std::size_t index) {
    const AxisValue& value = axis.values[index];
    const auto seconds = [&] { return decimal(std::get<Seconds>(value.amount).value, 1) + " s\n"; };
    switch (axis.quantity) {
        case AxisQuantity::grade: {
            const double grade = std::get<double>(value.amount);
            const std::string name = "grade " + grade_name(grade);
            const auto range = printing.unfogged_range(grade);
            return range ? name + "\nISO R " + fixed(*range, 0) + " unfogged" : name;
        }
        case AxisQuantity::exposure:
            return value.told + (std::holds_alternative<Stops>(value.amount) ? " stop" : "") + "\nexposure";
        case AxisQuantity::restrainer:
            return decimal(std::get<double>(value.amount), 1) + " ml/L\nrestrainer";
        case AxisQuantity::develop:
            return seconds() + "development";
        case AxisQuantity::bleach:
            if (const auto* percent = std::get_if<ClearingPercent>(&value.amount))
                return percent->value > 0 ? amount_in(value.told) + " %\nof clearing" : "no bleach";
            return std::get<Seconds>(value.amount).value > 0 ? amount_in(value.told) + " s\nbleach"
                                                             : "no bleach";
        case AxisQuantity::redevelop:
            return seconds() + "redevelopment";
        case AxisQuantity::toner: {
            const Toner toner = std::get<Toner>(value.amount);
            return toner == Toner::none ? "no toner" : toner_name(toner) + "\ntoner";
        }
        case AxisQuantity::local:
            if (const auto* times = std::get_if<double>(&value.amount)) {
                const Recipe worked = axis.applied(base, index);
                const auto work = std::ranges::find(worked.local, axis.work,
                                                    [](const LocalWork& each) { return called(each); });
                return (*times > 0 ? amount_words(*work) : "none") + "\n" + plain_line(axis.work);
            }
            return value.told +
                   (std::holds_alternative<Stops>(value.amount) &&
                            value.told.find("stop") == std::string::npos
                        ? " stop"
                        : "") +
                   "\n" + plain_line(axis.work);
    }
    return {};
}

std::vector<std::string> caption(const Proof& proof, const Printing& printing) {
    std::string work;
    if (printing.pack().contrast == Contrast::variable && proof.recipe.exposures.size() == 1)
        work = "grade " + grade_name(proof.recipe.exposures.front().grade.value_or(2)) + ", ";
    work += shown_exposure(proof, printing.pack().darkroom.anchored) + shown_flashes(proof) + ", " +
            shown_bleach(proof);
    const bool takes_nothing =
        proof.bleach.value <= 0 &&
        std::ranges::none_of(proof.steps.local, [](const LocalStep& step) { return step.dose > 0; });
    if (takes_nothing && tones_bleached(proof.recipe.toner))
        work += ", so " + toner_name(proof.recipe.toner) + " tones nothing";
    else if (takes_nothing && !is_toned(proof.recipe) && redevelopment_time(proof.recipe).value > 0)
        work += ", so redevelopment changes nothing";
    else if (is_toned(proof.recipe))
        work += ", " + toner_name(proof.recipe.toner) + " " + shown(redevelopment_time(proof.recipe));
    else if (redevelopment_time(proof.recipe).value > 0)
        work += ", redeveloped " + shown(redevelopment_time(proof.recipe));
    std::vector<std::string> lines{work,
                                   "density " + shown(proof.extent.lightest) + " to " +
                                       shown(proof.extent.darkest) +
                                       (proof.iso_range > 0 ? ", ISO R " + fixed(proof.iso_range, 0) : "") +
                                       ", off by " + fixed(proof.lightness_error, 1) + " L*",
                                   "empty lights " + shown_percent(proof.extent.blank_highlights) +
                                       ", blocked darks " + shown_percent(proof.extent.blocked_shadows)};
    // Each work on a line of its own, which a caption has room for.
    for (std::size_t i = 0; i < proof.recipe.local.size(); ++i)
        lines.push_back(local_amount_of(proof, i) > 0 ? local_words(printing, proof, i)
                                                      : plain_line(called(proof.recipe.local[i])) + ": none");
    return lines;
}

std::string panels_in_words(GridRequest::Panels panels) {
    switch (panels) {
        case GridRequest::Panels::likely:
            return {};
        case GridRequest::Panels::halves:
            return " Left of the line the print before the bleach, right of it after.";
        case GridRequest::Panels::spread:
            return " Left third: as dark as the print may come out; middle: as it is likely to; right third: "
                   "as light as it "
                   "may, for 95 % of the doubt about the pack.";
    }
    return {};
}

// Warnings first: they may make the prints under them worthless.
std::vector<std::string> subtitle(const Printing& printing, const GridRequest& request) {
    const Pack& pack = printing.pack();
    std::vector<std::string> lines;
    for (const auto& warning : request.remarks.warnings) lines.push_back("Warning: " + warning);
    lines.push_back("on " + pack.name + ": white " + fixed(pack.sheet.white_density, 2) +
                    ", blank developed " + fixed(pack.blank_density, 2) + ", black " +
                    fixed(pack.black_density, 2));
    std::string common = "development " + shown(Seconds{develop_step(pack, request.base).time_s});
    if (request.across.quantity == AxisQuantity::develop || request.down.quantity == AxisQuantity::develop)
        common.clear();
    if (request.across.quantity != AxisQuantity::restrainer &&
        request.down.quantity != AxisQuantity::restrainer)
        common += (common.empty() ? "" : ", ") + std::string("restrainer ") +
                  decimal(request.base.restrainer_ml_l, 1) + " ml/L";
    common += (common.empty() ? "" : ", ") + std::string("bleach bath 1+") +
              decimal(bleach_bath(pack, request.base).parts, 1);
    if (request.bath) common += ", seen through the bath";
    lines.push_back(common);
    return lines;
}

// The mark may be on a print that is off by more L* than one exposed less.
std::string words_on_exposures(const GridRequest& request) {
    if (request.across.quantity != AxisQuantity::exposure && request.down.quantity != AxisQuantity::exposure)
        return {};
    return " Among prints that differ only in exposure, it is the one that looks closest, each seen against "
           "its own white. A shorter exposure may give a smaller L* figure, but its highlights are empty.";
}

std::vector<std::string> legend(const Printing& printing, const WorkedGrid& grid, Rendering rendering) {
    const GridRequest& request = grid.request;
    std::vector<std::string> words;
    words.push_back(
        "Each print lies on its own border, developed and bleached with it but never exposed: fog shows "
        "there first. "
        "The slip at its right is the same paper only fixed, the whitest it can be." +
        panels_in_words(request.panels));
    if (request.recommended)
        words.push_back(
            "The framed print is the recommended one: it is expected to come closest when the doubt about "
            "the "
            "pack is counted. If the pack's numbers were exactly right, another might be closer.");
    else
        words.push_back(
            "The framed print comes closest to a print on the same paper before it fogged, at grade " +
            printing.target().named_grade() + "." + words_on_exposures(request));
    words.push_back(std::string("Stops count from the starting exposure: its print comes closest to ") +
                    (request.wanted && !request.wanted->white
                         ? "the goal."
                         : "the fresh-paper print, each seen against its own white."));
    if (!printing.pack().darkroom.anchored)
        words.push_back(
            "\"Full black +1 stop\" is a stop more than the shortest time that gives full black through "
            "clear film: this pack has no anchor, so seconds are not known.");
    else
        words.push_back(zero_of_seconds(printing.pack()));
    for (const LocalWork& work : request.base.local)
        words.push_back("Local work, " + plain_line(called(work)) + ": " + place_words(work) + ".");
    words.push_back(
        "How far a print is off fresh paper (rms of its tones in lightness, L*) assumes that the pack's "
        "numbers are exact. The real error may be larger.");
    words.push_back(assumptions(printing.pack()));
    for (const auto& note : request.remarks.notes) words.push_back("Scan: " + note);
    words.push_back(std::string("A simulation, ") +
                    (rendering == Rendering::absolute ? "colours absolute: white of the picture is an ideal "
                                                        "white, so the paper looks as grey as it is."
                                                      : "colours relative to the fixed-only slip.") +
                    " " + short_caution());
    return words;
}

// The print with the rim, and what all of them are measured against.
std::vector<LargePrint> large_prints(const Printing& printing, const WorkedGrid& grid,
                                     const GridSheet& sheet) {
    const GridRequest& request = grid.request;
    GridCell fresh{{Panel{printing.fresh_print()}},
                   {"Fresh paper, grade " + printing.target().named_grade() + ", only to compare",
                    "what this paper would have given before it fogged; the other prints are compared "
                    "with it"},
                   ""};
    const GridCell& marked = sheet.cells[grid.marked()];
    return {
        {request.recommended ? "Recommended" : "Closest to fresh paper", {marked.panels, marked.caption, ""}},
        {"Fresh paper", std::move(fresh)}};
}

}  // namespace

GridSheet grid_sheet(const Printing& printing, const WorkedGrid& grid, Rendering rendering) {
    GridSheet sheet;
    sheet.title = grid.request.negative;
    sheet.subtitle = subtitle(printing, grid.request);
    for (std::size_t i = 0; i < grid.request.across.values.size(); ++i)
        sheet.columns.push_back(heading(printing, grid.request.base, grid.request.across, i));
    for (std::size_t i = 0; i < grid.request.down.values.size(); ++i)
        sheet.rows.push_back(heading(printing, grid.request.base, grid.request.down, i));
    sheet.cells.resize(grid.proofs.size());
    in_parallel(grid.proofs.size(), [&](std::size_t i) {
        const Proof& proof = grid.proofs[i];
        sheet.cells[i] = {panels(printing, proof, grid.request), caption(proof, printing), ""};
    });
    sheet.cells[grid.marked()].mark =
        grid.request.recommended ? "Recommended" : "Closest to fresh paper of these prints";
    sheet.large = large_prints(printing, grid, sheet);
    sheet.legend = legend(printing, grid, rendering);
    return sheet;
}

Description grid_description(const Printing& printing, const WorkedGrid& grid,
                             const std::filesystem::path& folder) {
    const Recipe base = with_head_of(printing.pack(), grid.request.base);
    return {{"recipe", written(with_masks_as_from(folder, base))},
            {"negative", grid.request.negative},
            {"across", grid.request.across.in_words()},
            {"down", grid.request.down.in_words()}};
}

}  // namespace fogproof::report
