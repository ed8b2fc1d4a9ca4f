// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "base/words.hpp"
#include "fit/next_strip.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "proof/pack_summary.hpp"
#include "report/columns.hpp"
#include "report/numbers_text.hpp"
#include "report/pack_report.hpp"
#include "report/shown.hpp"
#include "report/verdict_words.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

constexpr std::size_t kNameWidth = 30, kWhiteNameWidth = 29, kRangeWidth = 20;

// "0.19 to 0.32"; nothing where no doubt is left or none could be worked out.
std::string between(const Interval& interval, int digits) {
    if (!std::isfinite(interval.low) || !std::isfinite(interval.high)) return {};
    const std::string low = fixed(interval.low, digits), high = fixed(interval.high, digits);
    return low == high ? std::string() : low + " to " + high;
}

std::string white_line(const std::string& name, const White& white, const std::string& price = {}) {
    std::string line = left("  " + name, kWhiteNameWidth);
    line.append(right(fixed(white.density.value, 2), 8)).append(right(between(white.density, 2), 14));
    line.append(right(fixed(white.lab.l, 1), 7)).append(right(fixed(white.lab.b, 1), 7));
    if (!price.empty()) line.append("   ").append(price);
    return line.append("\n");
}

std::string whites(const Pack& pack, const PackSummary& summary) {
    std::string text = left("Whites", kWhiteNameWidth) + right("density", 8) + right("95 %", 14) +
                       right("L*", 7) + right("b*", 7) + "\n" + white_line("only fixed", summary.fixed_only) +
                       white_line("developed blank", summary.blank);
    for (const auto& row : summary.restrained)
        text +=
            white_line("restrainer " + decimal(row.restrainer_ml_l, 1) + " ml/L", row.white,
                       fixed(row.stops_lost.value, 1) + " stop slower (" + between(row.stops_lost, 1) + ")");
    for (const auto& row : summary.bleached)
        text += white_line("bleached " + decimal(row.clearing_percent, 0) + " % of clearing", row.white,
                           shown_seconds(row.seconds) + " in 1+" + decimal(pack.darkroom.bath.parts, 1));
    if (summary.bleached.empty()) return text + "  No fog to clear: the blank is as white as the paper.\n";
    return text;
}

std::string range(const std::optional<Interval>& iso_range) {
    if (!iso_range) return right("-", kRangeWidth);
    const std::string doubt = between(*iso_range, 0);
    return right(fixed(iso_range->value, 0) + (doubt.empty() ? "" : " (" + doubt + ")"), kRangeWidth);
}

std::string contrast(const PackSummary& summary) {
    std::string text = left("Contrast, ISO R (95 %)", kNameWidth) + right("fresh", kRangeWidth) +
                       right("now", kRangeWidth) + right("cleared", kRangeWidth) + "\n";
    for (const auto& row : summary.grades)
        text += left("  grade " + grade_name(row.grade), kNameWidth) + range(row.fresh) + range(row.fogged) +
                range(row.cleared) + "\n";
    return text;
}

std::string black(const PackSummary& summary) {
    const std::string doubt = between(summary.black, 2);
    return "Black: " + fixed(summary.black.value, 2) + (doubt.empty() ? "" : " (95 %: " + doubt + ")") + "\n";
}

std::string speed(const Pack& pack, const PackSummary& summary) {
    if (!pack.darkroom.anchored)
        return "Speed: not known in seconds yet; exposures are given in stops. One print or test strip that "
               "is "
               "read\n  and fitted gives seconds.\nISO P: needs seconds and the illuminance at the easel.\n";
    std::string text = "Speed: " + shown_seconds(summary.speed_s) + " for 0.60 above white, fresh,\n  " +
                       zero_of_pack(pack) + "\n";
    return text + (summary.iso_speed ? "ISO P" + std::to_string(*summary.iso_speed) + "\n"
                                     : "ISO P: needs the illuminance at the easel, [anchor] lux.\n");
}

std::string counted(const Pack& pack) {
    std::array<int, 4> count{};
    for (const auto& row : pack_numbers())
        if (!is_departure(row) && is_listed(pack, row)) ++count[std::size_t(pack.known(row.name()).origin)];
    const int measured = count[std::size_t(Origin::measured)];
    return std::to_string(measured) + (measured == 1 ? " number measured, " : " numbers measured, ") +
           (count[std::size_t(Origin::partly_measured)] > 0
                ? std::to_string(count[std::size_t(Origin::partly_measured)]) + " partly measured, "
                : std::string()) +
           std::to_string(count[std::size_t(Origin::given)]) + " given, " +
           std::to_string(count[std::size_t(Origin::assumed)]) + " assumed (listed by --all).\n";
}

// Words that are too long for a line go on in the next, broken after a comma, below their own beginning.
std::string broken(const std::string& words, std::size_t indent) {
    constexpr std::size_t kWidest = 100;
    if (indent + words.size() <= kWidest) return words;
    const auto comma = words.rfind(", ", kWidest - indent - 1);
    if (comma == std::string::npos) return words;
    return words.substr(0, comma + 1) + "\n" + std::string(indent, ' ') +
           broken(words.substr(comma + 2), indent);
}

// The best piece of each kind: who has no wedge prints a test strip, or learns from a print.
std::string measure_next(const WorkedPacks& worked) {
    const auto pieces = next_pieces(worked);
    if (pieces.empty()) return {};
    std::string text =
        "Measure next: any of these, the first teaches most. They would narrow the next print\n(grade " +
        grade_name(pieces[0].print_grade) + ", cleared) from +/- " + fixed(pieces[0].doubt_now, 2) +
        " D (95 %) to\n";
    for (const NextStrip& piece : pieces)
        text += "  +/- " + fixed(piece.doubt_then, 2) + " D  " + broken(piece.in_words(), 14) + "\n";
    return text + "\n";
}

}  // namespace

std::string pack_text(const Pack& pack, Numbers numbers) {
    const WorkedPacks worked(pack);
    const PackSummary summary = pack_summary(worked);
    return pack.name + ": " + contrast_words()[std::size_t(pack.contrast)] + " contrast, " +
           surface_words()[std::size_t(pack.surface)] + "\n" + verdict_words(summary) + "\n" +
           whites(pack, summary) + "\n" + contrast(summary) + "\n" + black(summary) + speed(pack, summary) +
           "\n" + measure_next(worked) + counted(pack) +
           (numbers == Numbers::listed ? "\n" + numbers_text(pack) : std::string()) +
           "\nBleach and restrainer are chemicals: gloves, fresh air, no acid and no heat near "
           "ferricyanide.\n"
           "Labels, local rules and licensed practice come before anything said here.\n";
}

}  // namespace fogproof::report
