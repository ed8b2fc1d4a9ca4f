// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <cmath>
#include <vector>

#include "base/frame_side.hpp"
#include "base/words.hpp"
#include "choose/split_grade.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/toner_words.hpp"
#include "report/columns.hpp"
#include "report/edge_fog_words.hpp"
#include "report/local_words.hpp"
#include "report/pull_rule.hpp"
#include "report/seen_words.hpp"
#include "report/sheet_words.hpp"
#include "report/shown.hpp"
#include "report/start_report.hpp"
#include "report/strip_sheet.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

std::string exposure(const Printing& printing, const StartingPoint& point) {
    if (printing.pack().darkroom.anchored) return shown_seconds(point.exposure_s);
    return shown_black_stops(point.exposure_s, point.proof.black_stops);
}

std::string row(const Printing& printing, const StartingPoint& point) {
    return "  " + left(grade_name(point.found.grade), 7) + left(exposure(printing, point), 32) +
           left(decimal(point.found.restrainer_ml_l, 1) + " ml/L", 12) +
           left(report::shown(Seconds{point.found.develop_s}), 9) + left(shown_seconds(point.bleach_s), 27) +
           left(shown_distance(point.lightness_error), 22) +
           shown_distance(point.lightness_error_after_strip) + " L*\n";
}

// How far the ends of the picture miss what was wanted.
std::string unreached(const Printing& printing, const StartingPoint& point,
                      const std::optional<WantedEnds>& wanted) {
    const auto ends = [&](const PrintModel& print) {
        const auto at = [&](double share) { return print.patch(printing.frame().quantile(share)).lab.l; };
        return WantedEnds{at(kDenseEnd), at(kThinEnd)};
    };
    const WantedEnds print = ends(printing.print(point.proof.steps)),
                     goal = wanted ? *wanted : ends(printing.fresh_print());
    const double lights = print.lights - goal.lights, darks = print.darks - goal.darks;
    const std::string as_goal = wanted ? "wanted" : "on fresh paper";
    constexpr double kSeen = 1.0;  // L*
    std::string text;
    if (lights < -kSeen) text += "lights stay " + fixed(-lights, 1) + " L* darker than " + as_goal;
    if (darks > kSeen)
        text += (text.empty() ? "" : ", ") + std::string("darks ") + fixed(darks, 1) + " L* lighter";
    return text.empty() ? "the ends of the tonal range come out as " + as_goal : text;
}

std::string strip_words(const Printing& printing, const StartingPoint& point, const StartRequest& request) {
    const TestStrip strip = test_strip(point.exposure_s);
    std::string bands;
    for (std::size_t i = 0; i < strip.exposures.size(); ++i)
        bands += (i == 0 ? "" : ", ") + band_words(printing, strip, i);
    bands += printing.pack().darkroom.anchored ? "" : " from this exposure";
    const std::string where = "across " + request.strip.in_words();
    if (!strip_pays(point)) return "it would gain little; its bands would be " + bands + ", " + where;
    return bands + "; " + where;
}

// All times are for the dry print, which the model is fitted to; only an eye on a wet strip errs.
std::string judged_wet(const StartRequest& request) {
    if (request.dry_down <= 0) return {};
    return "               all times are for the dry print, dry-down included; if you choose a band wet, "
           "give " +
           fixed(100 * request.dry_down, 0) + " % less\n";
}

// A time that depends on the pack's speed as the exposure does, and is doubted by the same factor at least.
Interval known_as(const Interval& exposure_s, Seconds time) {
    const double factor = time.value / exposure_s.value;
    return {time.value, factor * exposure_s.low, factor * exposure_s.high};
}

std::string other_ways(const Printing& printing, const StartingPoint& point) {
    std::string text;
    if (!printing.pack().darkroom.anchored) return text;
    const Seconds time{point.exposure_s.value};
    if (const auto split = split_exposures(printing.pack(), printing.paper(), point.found.grade, time))
        text += "  split grade  " + shown_seconds(known_as(point.exposure_s, split->soft)) + " at grade " +
                grade_name(split->soft_grade) + " + " +
                shown_seconds(known_as(point.exposure_s, split->hard)) + " at grade " +
                grade_name(split->hard_grade) + "\n";
    const Flash flash = soft_flash(printing.pack(), printing.paper(), point.proof.steps.develop);
    if (flash.longest.value <= 0) return text;
    text += "  flash        up to " + shown_seconds(known_as(point.exposure_s, flash.longest)) +
            " without the negative" +
            (printing.pack().contrast == Contrast::graded ? "" : " at grade " + grade_name(flash.grade)) +
            " leaves no grey by itself; it adds to the light of the picture\n";
    return text;
}

std::string pull_words(const Printing& printing, const StartingPoint& best, const StartRequest& request) {
    const auto pull = moment_to_pull(printing, best);
    if (!pull) return {};
    const std::string gap(15, ' ');
    if (tones_bleached(best.recipe.toner))
        return "  pull         " +
               pull_rule(best.proof.clearing_percent, pull->border_ahead, best.recipe.toner,
                         printing.pack().edge_fog.is_there()) +
               "\n";
    std::string text = "  pull         look from " + report::shown(Seconds{pull->bleach_s.low}) +
                       " on, take it out by " + report::shown(Seconds{pull->bleach_s.high}) +
                       " at the latest; the yellow bath hides tones, so rinse before you look\n";
    if (request.telling)
        text += gap + "watch " + request.telling->in_words() + ":\n" + gap +
                "from 20 % before to 25 % after the right time it becomes " +
                fixed(request.telling->gain, 1) + " L* lighter\n";
    const bool has_edge_fog = printing.pack().edge_fog.is_there();
    std::string rule =
        pull_rule(best.proof.clearing_percent, pull->border_ahead, best.recipe.toner, has_edge_fog);
    if (const auto end = rule.find(". "); end != std::string::npos) rule.replace(end, 2, ".\n" + gap);
    if (!has_edge_fog)
        text += gap + "the unexposed border becomes " + fixed(pull->border_gain, 1) +
                " L* lighter in that time\n";
    return text + gap + rule + "\n";
}

// The best of each kind: a printer may own no wedge, or have no sheet to spare.
std::string next_words(const Printing& printing, const StartingPoints& points) {
    std::string text;
    std::vector<Offer::Kind> told;
    for (const Offer& offer : points.measure_next) {
        if (std::ranges::find(told, offer.kind) != told.end()) continue;
        text += (told.empty() ? "  read next    " : "               or ") + offer.in_words(printing.pack()) +
                "\n" + std::string(15, ' ') + decimal(offer.sheets, 2) +
                " sheet; the next first sheet is then expected " + shown_distance(offer.expected_then) +
                " L* off\n";
        told.push_back(offer.kind);
    }
    return text;
}

std::string proposed_words(const StartRequest& request) {
    if (!request.sought_work) return {};
    const std::string gap(15, ' ');
    if (!request.proposed)
        return "  proposed     no burn or dodge: none would bring the print noticeably closer\n";
    const auto& [place, stops, gain, without] = *request.proposed;
    const auto off = [](double lightness) {
        return fixed(std::abs(lightness), 1) + " L* too " + (lightness > 0 ? "light" : "dark");
    };
    return "  proposed     " + name_of(place.kind) + " " + frame_side(place.across, place.down) + ", " +
           decimal(100 * request.touched.front().mean, 0) + " % of the frame, by " + decimal(stops.value, 2) +
           " stop (" + fixed(stops.low, 1) + " to " + fixed(stops.high, 1) + ")\n" + gap + "this part is " +
           off(place.off) + " without it, then " + off(place.off_then) + "\n" + gap +
           "the first sheet comes " + fixed(gain.value, 2) + " L* (" + fixed(gain.low, 1) + " to " +
           fixed(gain.high, 1) + ") closer than without it (" + fixed(without, 1) + " L* off)\n";
}

std::string grade_words(const Printing& printing, const Proof& proof) {
    const auto grade = proof.recipe.exposures.front().grade;
    return proof.recipe.exposures.size() == 1 && grade ? " " + filter_words(printing.pack().contrast, *grade)
                                                       : "";
}

std::string rescue_row(const RescueStep& step) {
    return "  " + left(report::shown(step.redevelop), 14) + left(report::shown(step.border), 9) +
           left(report::shown(step.proof.extent.lightest), 9) +
           left(report::shown(step.proof.extent.darkest), 9) + fixed(step.off, 1) + " L*\n";
}

// The table is of the paper exactly as the pack says; the best of its times is not that sure.
std::string rescue_doubt(const Interval& redevelop_s) {
    constexpr double kShortestWorked_s = 1;  // nobody redevelops for parts of a second
    const auto shortest = [&] {
        if (redevelop_s.low <= 0) return std::string("none");
        if (redevelop_s.low < kShortestWorked_s) return std::string("less than 1 s");
        return report::shown(Seconds{redevelop_s.low});
    };
    std::string text = "All this holds if the paper is exactly as the pack says. ";
    if (redevelop_s.high <= 0) return text + "No paper that the pack may be wants redevelopment.\n";
    return text + "Over all papers that it may be, " + shortest() + " to " +
           report::shown(Seconds{redevelop_s.high}) + " come closest (95 %)" +
           (redevelop_s.high > 0.99 * kLongestRescue ? "; longer times were not tried.\n" : ".\n");
}

std::string closing_caution() {
    return "\nKeep ferricyanide away from acids, heat and strong sun. Wear gloves and eye protection, and "
           "have fresh air. Used baths go to collection. Labels, local rules and licensed practice come "
           "first.\n";
}

}  // namespace

std::string start_text(const Printing& printing, const StartingPoints& points, const StartRequest& request) {
    const StartingPoint& best = points.best;
    const double parts = bleach_bath(printing.pack(), best.recipe).parts;
    std::string text = request.negative + " on " + printing.pack().name + "\n";
    text += "Goal: " + request.target + ". Brackets hold 95 % of what the pack leaves open.\n\n";
    if (request.seen)
        text += "Seen: " + seen_words(*request.seen) + ".\n" +
                seen_consequences(*request.seen, printing.pack().darkroom.enlarger) + "\n";
    text += "Best\n";
    text += "  expose       " + exposure(printing, best) + " " +
            filter_words(printing.pack().contrast, best.found.grade) + "\n";
    text += "  develop      " + report::shown(Seconds{best.proof.steps.develop.time_s}) + ", restrainer " +
            decimal(best.found.restrainer_ml_l, 1) + " ml/L\n";
    if (best.bleach_s.value > 0) {
        text += "  bleach       " + shown_seconds(best.bleach_s) + " in 1+" + decimal(parts, 1);
        if (const auto percent = best.proof.clearing_percent)
            text += ", " + fixed(*percent, 0) + " % of clearing";
        text += "\n";
        text += pull_words(printing, best, request);
    } else {
        text += "  bleach       none: " + why_no_bleach(best.bleach_is_decided) + "\n";
    }
    if (is_toned(best.recipe))
        text += "  toner        " + toner_name(best.recipe.toner) + ", about " +
                report::shown(redevelopment_time(best.recipe)) + "\n";
    text += "  test strip   " + strip_words(printing, best, request) + "\n" + judged_wet(request);
    text += other_ways(printing, best);
    for (std::size_t i = 0; i < best.recipe.local.size(); ++i)
        text += (i == 0 ? "  local work   " : "               ") + local_words(printing, best.proof, i) +
                ", " + place_words(best.recipe.local[i]) + "\n";
    if (request.edges) {
        const auto words = edge_advice_words(*request.edges);
        for (const auto& sentence : words)
            text += (&sentence == &words.front() ? "  edge fog     " : "               ") + sentence + "\n";
    }
    text += proposed_words(request);
    text += "  comes out    the first sheet is expected " + shown_distance(best.lightness_error) +
            " rms off the goal; " +
            (strip_pays(best) ? (request.seen ? "if you judge all tones of a strip, not one place of it, "
                                              : "after the test strip ") +
                                    shown_distance(best.lightness_error_after_strip) + " L*\n"
                              : "a test strip would hardly bring it closer\n");
    text += "               if the paper is exactly as the pack says, " +
            shown_distance(best.found.lightness_error) + " L*; " + unreached(printing, best, request.ends) +
            "\n";
    if (const auto& other = points.after_strip)
        text += "               if you make a test strip, grade " + grade_name(other->found.grade) +
                " of the table below is safer: " + shown_distance(other->lightness_error_after_strip) +
                " L* after it\n";
    if (!request.ends && points.target.lights > 0)
        text += "               the fresh-paper goal itself is uncertain: +/- " +
                fixed(points.target.lights, 1) + " L* in the lights, " + fixed(points.target.middle, 1) +
                " in the middle, " + fixed(points.target.darks, 1) + " in the darks\n";
    text += next_words(printing, points);
    text += "  first sheet  " + fixed(100 * best.first_sheet_good, 0) +
            " % chance to be within 1/6 stop of the right exposure\n\n";
    if (!points.by_grade.empty() || points.unbleached)
        text += "  " + left("grade", 7) + left("exposure", 32) + left("restrainer", 12) + left("develop", 9) +
                left("bleach", 27) + left("first sheet off by", 22) + "after a strip\n";
    for (const auto& point : points.by_grade) text += row(printing, point);
    if (points.unbleached) text += "Without bleach\n" + row(printing, *points.unbleached);
    if (!printing.pack().darkroom.anchored)
        text += "\nTo get seconds, read one print or test strip and pack fit it, or give --black-time.\n" +
                std::string(kFullBlackByEye) + "\n";
    else
        text += "\n" + zero_of_seconds(printing.pack()) + "\n";
    if (points.by_grade.size() > 1)
        text +=
            "Best counts the first sheet and the sheet after a test strip half and half, and a little for "
            "every bath "
            "more.\n";
    text +=
        "L* is lightness from 0 (black) to 100 (white); an eye sees a difference of about 1. rms averages "
        "over the tones (root mean square).\n";
    return text + closing_caution();
}

std::string rescue_text(const Printing& printing, const Proof& made, const Rescue& rescue,
                        const StartRequest& request) {
    std::string text = request.negative + " on " + printing.pack().name + "\n";
    text += "Goal: " + request.target + ".\n";
    text += "The print: " + shown_exposure(made, printing.pack().darkroom.anchored) +
            grade_words(printing, made) + ", developed " + report::shown(Seconds{made.steps.develop.time_s}) +
            ", restrainer " + decimal(made.steps.develop.restrainer_ml_l, 1) +
            " ml/L. If yours was made otherwise, say so: --grade, --restrainer, --develop, --bleach.\n\n";
    text += "Bleached for " + report::shown(rescue.best.proof.bleach) +
            ", not yet fixed again: washed, redeveloped in fresh developer under room light, then fixed\n";
    text += "  redeveloped   border   lights   darks    off by\n";
    for (const auto& step : rescue.steps) text += rescue_row(step);
    text += "Closest\n" + rescue_row(rescue.best);
    text += rescue_doubt(rescue.redevelop_s);
    if (rescue.best.redevelop.value <= 0)
        text += "Redevelopment would only make it darker: leave it as it is, or bleach on.\n";
    else if (printing.pack().known("redevelop.rise_s").origin == Origin::assumed)
        text +=
            "How fast silver comes back is assumed, nobody measured it: watch the print, not the clock.\n";
    return text +
           "Once the print is fixed again, nothing comes back. Before the developer, wash all bleach out: "
           "several changes of water.\n" +
           closing_caution();
}

}  // namespace fogproof::report
