// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <cmath>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "choose/pull.hpp"
#include "choose/split_grade.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/toner_words.hpp"
#include "report/cautions.hpp"
#include "report/edge_fog_words.hpp"
#include "report/local_words.hpp"
#include "report/pull_rule.hpp"
#include "report/sheet_words.hpp"
#include "report/shown.hpp"
#include "report/strip_sheet.hpp"
#include "report/toning_words.hpp"
#include "report/work_sheets.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

std::string filter_words(const PlannedPrint& print) {
    if (print.printing.pack().contrast == Contrast::graded) return "no filter, graded paper";
    return "grade " + grade_name(print.point.found.grade);
}

std::string exposure_words(const PlannedPrint& print) {
    const StartingPoint& point = print.point;
    if (print.printing.pack().darkroom.anchored) return roughly(point.exposure_s);
    return shown_black_stops(point.exposure_s, point.proof.black_stops);
}

Listing exposures(const PlannedPrint& print) {
    Listing table{"Exposure, 95 % interval in brackets", {"What", "How much"}, {}};
    table.rows.push_back({"Filter", filter_words(print)});
    table.rows.push_back({"Likely exposure", exposure_words(print)});
    const Seconds time{print.point.exposure_s.value};
    if (print.printing.pack().darkroom.anchored)
        if (const auto split =
                split_exposures(print.printing.pack(), print.printing.paper(), print.point.found.grade, time))
            table.rows.push_back({"The same as split grade", shown(split->soft) + " at grade " +
                                                                 grade_name(split->soft_grade) + ", then " +
                                                                 shown(split->hard) + " at grade " +
                                                                 grade_name(split->hard_grade)});
    const Proof& proof = print.point.proof;
    for (std::size_t i = 0; i < proof.recipe.local.size(); ++i)
        table.rows.push_back(
            {"Local work " + std::to_string(i + 1),
             local_words(print.printing, proof, i) + ": " + place_words(proof.recipe.local[i])});
    if (print.edges)
        for (const auto& words : edge_advice_words(*print.edges)) table.rows.push_back({"Edge fog", words});
    table.rows.push_back({"First sheet", fixed(100 * print.point.first_sheet_good, 0) +
                                             " % chance to be within 1/6 stop of the right exposure"});
    if (!print.printing.pack().darkroom.anchored) table.rows.push_back({"Full black", kFullBlackByEye});
    return table;
}

Listing strip(const PlannedPrint& print) {
    const TestStrip strip = test_strip(print.point.exposure_s);
    Listing table{"Test strip in steps of " + decimal(strip.step_stops, 2) + " stop: lay it across " +
                      print.strip.in_words(),
                  {},
                  {}};
    // Without seconds there are none to add either.
    const bool anchored = print.printing.pack().darkroom.anchored;
    if (anchored)
        table.heads = {"Band", "Exposure", "Added to the band before", "Seen"};
    else
        table.heads = {"Band", "From the likely exposure", "Seen"};
    for (std::size_t i = 0; i < strip.exposures.size(); ++i) {
        const Seconds time = strip.exposures[i];
        const std::string number = std::to_string(i + 1), words = band_words(print.printing, strip, i);
        if (anchored)
            table.rows.push_back({number, words, shown(i == 0 ? time : time - strip.exposures[i - 1]), ""});
        else
            table.rows.push_back({number, words, ""});
    }
    return table;
}

// Steps of one kind of local work, in their order.
std::vector<std::string> local_steps(const PlannedPrint& print, LocalWork::Kind kind) {
    const Proof& proof = print.point.proof;
    std::vector<std::string> steps;
    for (std::size_t i = 0; i < proof.recipe.local.size(); ++i) {
        const LocalWork& work = proof.recipe.local[i];
        if (work.kind != kind || local_amount_of(proof, i) <= 0) continue;
        const std::string what = local_words(print.printing, proof, i) + ", " + place_words(work);
        if (kind == LocalWork::Kind::dodge)
            steps.push_back("During this exposure " + what +
                            ": hold a card or a disc on a wire over it and keep it moving.");
        else if (kind == LocalWork::Kind::burn)
            steps.push_back("Then " + what + (work.grade ? ", with that filter" : "") +
                            ": shade the rest with a card, keep it moving.");
        else
            steps.push_back("Now " + what + " in 1+" +
                            decimal(bleach_bath(print.printing.pack(), print.point.recipe).parts, 1) +
                            ", from a cup of its own that is not poured back into the "
                            "bath: brush or "
                            "swab it on the wet print, rinse and look often, keep "
                            "wet all around so that no edge forms. It comes out less even than a bath.");
    }
    return steps;
}

void add_toning(std::vector<std::string>& steps, const std::string& toning) {
    steps.push_back(toning);
    steps.push_back("Wash as the paper asks; dry.");
}

// What is done to the strip is what will be done to the print: a toner changes tones too.
std::string strip_work(const StartingPoint& point) {
    const bool bleached = point.bleach_s.value > 0;
    if (is_toned(point.recipe))
        return bleached ? "develop, bleach and tone it like the print" : "develop and tone it like the print";
    return bleached ? "develop and bleach it like the print" : "develop it like the print";
}

// What to look at in the bath. A border with more fog than the picture says nothing of it.
std::string watched(const PlannedPrint& print) {
    const std::string border = print.edges ? "" : "the unexposed border";
    if (!print.telling) return border.empty() ? "the picture" : border;
    return border + (border.empty() ? "" : ", and ") + print.telling->in_words() + ",";
}

std::vector<std::string> way(const PlannedPrint& print) {
    const StartingPoint& point = print.point;
    const DevelopStep& develop = point.proof.steps.develop;
    const bool bleached = point.bleach_s.value > 0;
    std::vector<std::string> steps;
    if (print.cost.strip)
        steps.push_back("Test strip, a quarter of a sheet: " + strip_work(point) +
                        ", and choose its exposure dry." +
                        (bleached && print.printing.pack().darkroom.anchored
                             ? " If you want to use start --seen, choose the band before you bleach."
                             : ""));
    steps.push_back("Expose a sheet: " + exposure_words(print) + ", " + filter_words(print) + ".");
    for (const auto kind : {LocalWork::Kind::dodge, LocalWork::Kind::burn}) {
        const auto works = local_steps(print, kind);
        steps.insert(steps.end(), works.begin(), works.end());
    }
    steps.push_back("Develop " + shown(Seconds{develop.time_s}) + " at " + decimal(develop.temperature_c, 1) +
                    " C with " + decimal(develop.restrainer_ml_l, 1) + " ml/L of restrainer (" +
                    restrainer_words(print.printing.pack().darkroom.restrainer_agent) +
                    "). Stop, fix, wash as the labels say.");
    const auto brushed = local_steps(print, LocalWork::Kind::bleach);
    const auto toning = toning_step(point.recipe);
    if (point.bleach_s.value <= 0 && brushed.empty()) {
        steps.push_back("No bleach: " + why_no_bleach(point.bleach_is_decided) + "." +
                        (toning ? "" : " Wash and dry."));
        if (toning) add_toning(steps, *toning);
        return steps;
    }
    const BleachBath bath = bleach_bath(print.printing.pack(), point.recipe);
    steps.push_back(
        "Wash the print well (5 minutes, several changes of water): stop bath or acid fixer left "
        "in the paper must not get into the bleach.");
    const auto pull = moment_to_pull(print.printing, point);
    if (tones_bleached(point.recipe.toner)) {
        if (point.bleach_s.value > 0)
            steps.push_back(
                "Bleach in 1+" + decimal(bath.parts, 1) + " at " + decimal(bath.temperature_c, 1) +
                " C for " + shown(Seconds{point.bleach_s.value}) + ". " +
                pull_rule(point.proof.clearing_percent, 0, point.recipe.toner, print.edges.has_value()));
        steps.insert(steps.end(), brushed.begin(), brushed.end());
        add_toning(steps, *toning);
        return steps;
    }
    if (point.bleach_s.value > 0)
        steps.push_back("Bleach in 1+" + decimal(bath.parts, 1) + " at " + decimal(bath.temperature_c, 1) +
                        " C, likely " + roughly(point.bleach_s) + ". Watch " + watched(print) + " from " +
                        shown(Seconds{point.bleach_s.low}) + " on" +
                        ". The yellow bath hides tones: rinse, look, and put it back. " +
                        pull_rule(point.proof.clearing_percent, pull ? pull->border_ahead : 0,
                                  point.recipe.toner, print.edges.has_value()));
    steps.insert(steps.end(), brushed.begin(), brushed.end());
    steps.push_back(
        "Rinse until the water stays clear. If you bleached too far, do not fix yet: the print can still be "
        "redeveloped.");
    steps.push_back(toning ? "Fix again in fresh fixer, time from its label."
                           : "Fix again in fresh fixer, time from its label; wash as the paper asks; dry.");
    if (toning) add_toning(steps, *toning);
    return steps;
}

Listing outcome(const PlannedPrint& print, const WorkTerms& terms) {
    const Proof& proof = print.point.proof;
    Listing table{"What should come out, a simulation", {"What", "How much"}, {}};
    table.rows.push_back(
        {"Density of the picture", shown(proof.extent.lightest) + " to " + shown(proof.extent.darkest)});
    table.rows.push_back({"Goal", print.wanted});
    table.rows.push_back({"Expected distance from the goal, first sheet",
                          shown_distance(print.point.lightness_error) + " rms"});
    table.rows.push_back({"The same after a test strip",
                          strip_pays(print.point)
                              ? shown_distance(print.point.lightness_error_after_strip) + " L* rms"
                              : "hardly closer: the strip would not pay"});
    table.rows.push_back({"Lost tones", "empty lights " + shown_percent(proof.extent.blank_highlights) +
                                            ", blocked darks " +
                                            shown_percent(proof.extent.blocked_shadows)});
    if (print.silver_g > 0) {
        table.rows.push_back({"Bleach times that look alike, within " + fixed(terms.alike, 1) + " L*",
                              shown(print.latitude.shortest) + " to " + shown(print.latitude.longest)});
        table.rows.push_back({"Silver the bleach takes up", milligrams(print.silver_g)});
    }
    table.rows.push_back({"Sheets it will cost", decimal(print.cost.expected, 2) +
                                                     (print.cost.strip ? ", a test strip included" : "")});
    return table;
}

}  // namespace

Document print_sheet(const PlannedPrint& print, const WorkTerms& terms, WorksheetPictures pictures,
                     const std::string& labels) {
    const bool bleach =
        print.point.bleach_s.value > 0 || !local_steps(print, LocalWork::Kind::bleach).empty();
    Document sheet{print.name, {"Worksheet, on " + print.printing.pack().name}, {}};
    if (!print.printing.pack().darkroom.anchored)
        sheet.lead.push_back(
            "This pack has no seconds yet: exposures count in stops from the shortest time for full black "
            "through clear film. To find it, expose bands of one strip through clear film" +
            std::string(print.printing.pack().contrast == Contrast::graded ? "" : " and this filter") +
            ", each half a stop longer than the one before, and develop " +
            shown(Seconds{print.printing.pack().development.nominal_s}) +
            " without restrainer: it is the first band that is as black as the next. Given as --black-time "
            "it "
            "makes seconds of these stops.");
    else
        sheet.lead.push_back(zero_of_seconds(print.printing.pack()));
    for (const auto& warning : print.remarks.warnings) sheet.lead.push_back("Warning: " + warning);
    sheet.columns = Columns::two;
    if (!pictures.print.empty()) sheet.sections.push_back({"", std::move(pictures.print)});
    Section expose{"Expose", {exposures(print)}};
    if (print.cost.strip) expose.blocks.push_back(strip(print));
    sheet.sections.push_back(std::move(expose));
    sheet.sections.push_back({"Do", {Steps{way(print)}}});
    sheet.sections.push_back(
        {"Take care",
         {cautions(bleach, print.printing.pack().darkroom.restrainer_agent, print.printing.toner())}});
    Blanks blanks{{"Exposure and filter used", "Development, restrainer"}};
    if (bleach) blanks.labels.push_back("Bleach: pulled after, because");
    blanks.labels.push_back("Seen when dry; next time");
    Section written{"Written down", {blanks}};
    if (!labels.empty())
        written.blocks.push_back(Paragraph{
            "The file " + plain_line(labels) +
            " holds this print's labels. Write there what you did otherwise, scan the dry print with a slip "
            "beside it, and let the program read it. The command is in the first lines of that file."});
    else if (is_toned(print.point.recipe))
        written.blocks.emplace_back(Paragraph{
            "No labels are written for this print: the program cannot read toned silver. To learn more "
            "about the pack, scan an untoned print or test strip."});
    sheet.sections.push_back(std::move(written));
    if (!pictures.masks.empty())
        sheet.sections.push_back({"Local work", std::move(pictures.masks), Seen::on_next_sheet});
    pictures.charts.push_back(outcome(print, terms));
    sheet.sections.push_back({"The print", std::move(pictures.charts), Seen::on_screen});
    if (!print.remarks.notes.empty()) {
        Section notes{"Guesses taken with the scan", {}, Seen::on_screen};
        for (const auto& note : print.remarks.notes) notes.blocks.push_back(Paragraph{note});
        sheet.sections.push_back(std::move(notes));
    }
    return sheet;
}

}  // namespace fogproof::report
