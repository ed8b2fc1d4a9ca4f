// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <cmath>

#include "fogproof/base/words.hpp"
#include "fogproof/calibrate/next_strip.hpp"
#include "fogproof/pack/schema.hpp"
#include "fogproof/report/pack_report.hpp"
#include "fogproof/report/shown.hpp"
#include "report/pack_summary.hpp"

namespace fogproof {
namespace {

constexpr std::size_t kNameWidth = 30, kNumberWidth = 10;

std::string left(std::string text, std::size_t width) {
    text.resize(std::max(text.size(), width), ' ');
    return text;
}

std::string right(const std::string& text, std::size_t width = kNumberWidth) {
    return std::string(width - std::min(width, text.size()), ' ') + text;
}

std::string white_line(const std::string& name, const White& white, const std::string& price = {}) {
    std::string line = left("  " + name, kNameWidth);
    line.append(right(shown(white.density))).append(right(fixed(white.lab.l, 1)));
    line.append(right(fixed(white.lab.b, 1)));
    if (!price.empty()) line.append("   ").append(price);
    return line.append("\n");
}

std::string whites(const Pack& pack, const PackSummary& summary) {
    std::string text = left("Whites", kNameWidth) + right("density") + right("L*") + right("b*") + "\n" +
                       white_line("only fixed", summary.fixed_only) +
                       white_line("developed blank", summary.blank);
    for (const auto& row : summary.restrained)
        text += white_line("restrainer " + decimal(row.restrainer_ml_l, 1) + " ml/L", row.white,
                           fixed(row.stops_lost, 1) + " stop slower");
    for (const auto& row : summary.bleached)
        text += white_line("bleached " + decimal(row.clearing_percent, 0) + " % of clearing", row.white,
                           shown(Seconds{row.seconds.value}) + " in 1+" + decimal(pack.bath.parts, 1) +
                               " (95 %: " + shown(Seconds{row.seconds.low}) + " to " +
                               shown(Seconds{row.seconds.high}) + ")");
    if (summary.bleached.empty()) return text + "  No fog to clear: the blank is as white as the paper.\n";
    return text;
}

std::string range(const std::optional<double>& iso_range) {
    return right(iso_range ? fixed(*iso_range, 0) : "-");
}

std::string contrast(const PackSummary& summary) {
    std::string text =
        left("Contrast, ISO R", kNameWidth) + right("fresh") + right("now") + right("cleared") + "\n";
    for (const auto& row : summary.grades)
        text += left("  grade " + decimal(row.grade, 1), kNameWidth) + range(row.fresh) + range(row.fogged) +
                range(row.cleared) + "\n";
    return text;
}

std::string speed(const Pack& pack, const PackSummary& summary) {
    if (!pack.anchored)
        return "Speed: not in seconds, the pack has no anchor; exposures are told in stops.\n"
               "ISO P: needs the anchor and its illuminance.\n";
    std::string text =
        "Speed: " + shown(Seconds{summary.speed_s}) + " through clear film for 0.60 above white, fresh\n";
    return text + (summary.iso_speed ? "ISO P" + std::to_string(*summary.iso_speed) + "\n"
                                     : "ISO P: needs the illuminance at the easel, [anchor] lux.\n");
}

std::string origin_of(const Knowledge& known) {
    return shown(known.origin);
}

std::string numbers(const Pack& pack) {
    std::string text = "Numbers\n";
    const auto add = [&](const std::string& name, const std::string& value, const Knowledge& known) {
        text += left("  " + name, kNameWidth) + left(right(value, 14), 28) + "  " + origin_of(known) + "\n";
    };
    add("paper.contrast", contrast_words()[std::size_t(pack.contrast)], pack.known("paper.contrast"));
    add("paper.surface", surface_words()[std::size_t(pack.surface)], pack.known("paper.surface"));
    const auto value_of = [](double value, const Knowledge& known, std::string_view unit) {
        std::string words = decimal(value, 4);
        if (known.deviation) words += " +/- " + decimal(*known.deviation, 4);
        return unit.empty() ? words : words + " " + std::string(unit);
    };
    for (const auto& row : pack_numbers()) {
        const Knowledge known = pack.known(row.name());
        add(row.name(), value_of(row.of(pack), known, row.unit), known);
    }
    for (const auto& filter : pack.filters)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(filter, row.key);
            add(name, value_of(row.of(filter), pack.known(name), row.unit), pack.known(name));
        }
    return text;
}

std::string counted(const Pack& pack) {
    std::array<int, 4> count{};
    for (const auto& row : pack_numbers()) ++count[std::size_t(pack.known(row.name()).origin)];
    return std::to_string(count[std::size_t(Origin::measured)]) + " numbers measured, " +
           (count[std::size_t(Origin::nudged)] > 0
                ? std::to_string(count[std::size_t(Origin::nudged)]) + " partly measured, "
                : std::string()) +
           std::to_string(count[std::size_t(Origin::given)]) + " given, " +
           std::to_string(count[std::size_t(Origin::assumed)]) + " assumed; listed below.\n";
}

}  // namespace

std::string pack_text(const Pack& pack) {
    const auto next = next_strip(pack);
    const std::string measure =
        next ? "Measure next: " + next->in_words() + ".\n  It would narrow the next print (grade " +
                   decimal(next->print_grade, 1) + ", cleared) from +/- " + fixed(next->doubt_now, 2) +
                   " D to +/- " + fixed(next->doubt_then, 2) + " D (95 %).\n\n"
             : "";
    const PackSummary summary = pack_summary(pack);
    return pack.name + ": " + contrast_words()[std::size_t(pack.contrast)] + " contrast, " +
           surface_words()[std::size_t(pack.surface)] + "\n" + counted(pack) + "\n" + whites(pack, summary) +
           "\n" + contrast(summary) + "\n" + "Black: " + shown(summary.black) + "\n" + speed(pack, summary) +
           "\n" + measure + numbers(pack) +
           "\nBleach and restrainer are chemicals: gloves, fresh air, no acid and no heat near "
           "ferricyanide.\n"
           "Labels, local rules and licensed practice come before anything said here.\n";
}

}  // namespace fogproof
