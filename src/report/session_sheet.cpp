// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <cmath>
#include <optional>

#include "base/words.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/toner_words.hpp"
#include "report/cautions.hpp"
#include "report/pull_rule.hpp"
#include "report/session_baths.hpp"
#include "report/sheet_words.hpp"
#include "report/shown.hpp"
#include "report/work_sheets.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

using Prints = std::vector<SessionPrint>;

constexpr char kFirstWash[] =
    "Wash all prints well (5 minutes, several changes of water): stop bath or acid fixer left in the paper "
    "must not get into the bleach.";
constexpr char kToning[] = "Wash well, then tone each print as its worksheet says.";

constexpr double kFirstWash_s = 300, kRefix_s = 300;  // common practice, no source; labels know better

// Prints in rising restrainer: what is in the developer cannot be taken out again.
std::vector<std::size_t> printing_order(const Prints& prints) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < prints.size(); ++i) order.push_back(i);
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return prints[i].numbers.restrainer_ml_l; });
    return order;
}

// Of a print, in a fresh bath; nothing where it is not bleached.
std::optional<Seconds> session_time(const Session& session, std::size_t print) {
    for (const SessionBatch& batch : session.batches)
        if (std::ranges::find(batch.prints, print) != batch.prints.end()) return batch.time;
    return std::nullopt;
}

// The time of a load that is told otherwise than the print's own.
std::optional<Seconds> shared_time(const Prints& prints, const Session& session, std::size_t print) {
    const auto time = session_time(session, print);
    return time && shown(*time) != shown(prints[print].numbers.bleach) ? time : std::nullopt;
}

std::string bleach_told(const Prints& prints, const Session& session, std::size_t print) {
    const Interval& own = prints[print].numbers.bleach_s;
    if (own.value <= 0) return "none";
    const auto shared = shared_time(prints, session, print);
    return roughly(own) + (shared ? ", in this session " + shown(*shared) : "");
}

Listing print_table(const Prints& prints, const Session& session, const Pack& pack) {
    Listing table{"Prints in the order of exposing, rising restrainer first to last",
                  {"Negative", "Filter", "Exposure", "Developer", "Bleach", "Sheets"},
                  {}};
    for (const std::size_t i : printing_order(prints)) {
        const SessionPrint::Numbers& print = prints[i].numbers;
        table.rows.push_back(
            {prints[i].name, pack.contrast == Contrast::graded ? "none" : "grade " + grade_name(print.grade),
             pack.darkroom.anchored ? roughly(print.exposure_s)
                                    : shown_black_stops(print.exposure_s, print.black_stops),
             shown(Seconds{print.develop_s}) + ", restrainer " + decimal(print.restrainer_ml_l, 1) + " ml/L",
             bleach_told(prints, session, i), decimal(print.cost.expected, 2)});
    }
    return table;
}

// In the order of exposing; none where no pictures were made.
std::vector<Block> print_pictures(const Prints& prints) {
    Pictures small;
    for (const std::size_t i : printing_order(prints)) {
        const auto& [jpeg, width, height] = prints[i].small;
        if (jpeg.empty()) continue;
        small.pictures.push_back(
            {"image/jpeg", jpeg, width, height, "Simulated print of " + prints[i].name, prints[i].name});
    }
    if (small.pictures.empty()) return {};
    return {std::move(small)};
}

Listing order_table(const Prints& prints, const Session& session) {
    Listing table{
        "Bleach in this order", {"No.", "Prints", "Bath", "Time in a fresh bath", "Time now", "Done"}, {}};
    for (std::size_t i = 0; i < session.batches.size(); ++i) {
        const SessionBatch& batch = session.batches[i];
        const BleachBath& bath = prints[batch.prints.front()].numbers.bath;
        std::vector<std::string> names;
        for (const std::size_t print : batch.prints) names.push_back(prints[print].name);
        table.rows.push_back({std::to_string(i + 1), listed(names),
                              one_plus(bath.parts) + (batch.fresh ? ", mix anew" : ""), shown(batch.time),
                              shown(batch.now), ""});
    }
    return table;
}

std::string count_of(std::size_t count, const std::string& one) {
    return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

// One row a print, in the order of the loads.
Listing pull_table(const Prints& prints, const Session& session, Toner toner) {
    Listing table{"Out of the bleach", {"Print", "When to take it out", "Pulled at"}, {}};
    for (const SessionBatch& batch : session.batches)
        for (const std::size_t i : batch.prints) {
            const SessionPrint::Numbers& print = prints[i].numbers;
            const auto percent =
                print.clearing_percent < 0 ? std::nullopt : std::optional(print.clearing_percent);
            table.rows.push_back(
                {prints[i].name, pull_rule(percent, print.border_short, toner, print.edges.has_value()), ""});
        }
    return table;
}

// Worksheets and labels were written for each print alone.
std::vector<Block> shared_words(const Prints& prints, const Session& session) {
    std::vector<std::string> others;
    for (std::size_t i = 0; i < prints.size(); ++i)
        if (const auto shared = shared_time(prints, session, i))
            others.push_back(prints[i].name + " " + shown(*shared) + " instead of " +
                             shown(prints[i].numbers.bleach));
    if (others.empty()) return {};
    return {
        Paragraph{"In this session: " + listed(others) +
                  " on the worksheet and in the labels. Write the time that you gave into the labels before "
                  "you read the print."}};
}

Section bleaching(const Prints& prints, const Session& session, const WorkTerms& terms) {
    Section section{"Bleach", {order_table(prints, session)}};
    section.blocks.push_back(Paragraph{
        count_of(session.groups, "bleach time") + " for " + count_of(session.batches.size(), "tray load") +
        ", " + count_of(session.baths, "bath") +
        ". Prints share a bleach time if none changes by more than " + decimal(terms.alike, 2) +
        " L*. Use strong baths first: a bath can be diluted but not made stronger. Do short times first: an "
        "error matters most there, and a fresh bath is the most reliable. \"Time now\" is longer where the "
        "bath has taken up silver before."});
    std::ranges::move(shared_words(prints, session), std::back_inserter(section.blocks));
    if (tones_bleached(terms.toner)) {
        section.blocks.push_back(Steps{{kFirstWash, "Bleach load by load, by the clock.",
                                        "Rinse until the yellow is gone. Do not fix before the toner.",
                                        "Tone and wash each print as its worksheet says."}});
        section.blocks.push_back(pull_table(prints, session, terms.toner));
        return section;
    }
    section.blocks.push_back(Steps{
        {kFirstWash, "Bleach load by load; pull by eye, the times only say when to look.",
         "Rinse until the water stays clear, look at them briefly in ordinary room light beside a "
         "slip only fixed.",
         "Fix again in fresh fixer, time from its label. A print that was bleached too far goes into the "
         "developer before it is fixed again, never after.",
         terms.toner == Toner::none ? "Wash as the paper asks." : kToning}});
    section.blocks.push_back(pull_table(prints, session, terms.toner));
    const double total = kFirstWash_s + session.total.value + kRefix_s;
    section.blocks.push_back(Paragraph{
        "Allow " + minutes(total) + " from this wash to the fixed prints: wash " + minutes(kFirstWash_s) +
        ", bleach with rinse and look " + minutes(session.total.value) + ", fix " + minutes(kRefix_s) + "."});
    return section;
}

std::string no_bleach(const Prints& prints) {
    if (brush_bleach(prints)) return "No print goes into the bath. Brush bleach on as the worksheets say.";

    const bool is_decided =
        std::ranges::all_of(prints, [](const auto& print) { return print.numbers.bleach_is_decided; });
    return is_decided          ? "No bleach, " + why_no_bleach(true) + "."
           : prints.size() > 1 ? "None of these prints needs bleaching."
                               : "This print needs no bleaching.";
}

std::string sheets_words(const Prints& prints, const WorkTerms& terms) {
    double expected = 0, strips = 0;
    for (const auto& print : prints) {
        expected += print.numbers.cost.expected;
        strips += print.numbers.cost.strip ? 1 : 0;
    }
    std::string words = "About " + decimal(expected, 2) + " sheets: " + count_of(prints.size(), "print") +
                        ", " + count_of(std::size_t(strips), "test strip") +
                        " of a quarter sheet (judgement)" +
                        (strips < double(prints.size()) ? ", and what first sheets will miss" : "") + ".";
    if (!terms.sheets_left) return words;
    words += " Left in the pack: " + std::to_string(*terms.sheets_left) + ".";
    if (expected > *terms.sheets_left)
        words += std::string(" That is not enough for ") + (prints.size() > 1 ? "all of them." : "it.");
    return words;
}

}  // namespace

Document session_sheet(const Prints& prints, const Session& session, const Pack& pack,
                       const WorkTerms& terms) {
    const bool bleach = !session.batches.empty();
    Document sheet{"Session",
                   {count_of(prints.size(), "negative") + " on " + pack.name + ", sheets of " +
                    decimal(terms.sheet.width / 10, 1) + " x " + decimal(terms.sheet.length / 10, 1) +
                    " cm." + (pack.darkroom.anchored ? " " + head_of_seconds(pack) : "")},
                   {}};
    for (const auto& print : prints)
        for (const auto& warning : print.warnings)
            sheet.lead.push_back("Warning, " + print.name + ": " + warning);
    Section mix{"Mix", {mixtures(prints, session, terms)}};
    for (auto& block : bath_words(prints, session, pack, terms)) mix.blocks.push_back(std::move(block));
    Section print{"Print", print_pictures(prints)};
    print.blocks.emplace_back(print_table(prints, session, pack));
    print.blocks.emplace_back(Paragraph{sheets_words(prints, terms)});
    // Read before a bath is used, and in print not left alone on a last page.
    sheet.sections = {
        std::move(print),
        std::move(mix),
        {"Take care",
         {cautions(bleach || brush_bleach(prints), pack.darkroom.restrainer_agent, terms.toner)}}};
    if (bleach)
        sheet.sections.push_back(bleaching(prints, session, terms));
    else
        sheet.sections.push_back({"Bleach", {Paragraph{no_bleach(prints)}}});
    if (!bleach && terms.toner != Toner::none) sheet.sections.push_back({"Tone", {Steps{{kToning}}}});
    sheet.sections.push_back(
        {"Written down", {Blanks{{"Date, temperatures", "Sheets used, sheets left", "Next time"}}}});
    return sheet;
}

}  // namespace fogproof::report
