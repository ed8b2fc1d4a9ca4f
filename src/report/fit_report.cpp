// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/fit_report.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "base/words.hpp"
#include "pack/schema.hpp"
#include "report/columns.hpp"
#include "report/departure_words.hpp"
#include "report/json_text.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

// As many decimals as the deviation leaves meaning to.
std::string rough(double value, double deviation) {
    const int digits = deviation > 0 ? std::max(0, 1 - int(std::floor(std::log10(deviation)))) : 4;
    return fixed(value, std::min(digits, 6));
}

std::string number_line(std::string_view called, const FittedNumber& number) {
    return left("  " + std::string(called), 36) +
           right(rough(number.before, number.doubt_before) + " +/- " +
                     rough(number.doubt_before, number.doubt_before),
                 20) +
           right(rough(number.value, number.deviation) + " +/- " + rough(number.deviation, number.deviation),
                 22) +
           "  " + shown(number.state) + "\n";
}

// What a printer asks for first, in a printer's words.
struct PlainNumber {
    std::string_view name, words;
};
constexpr std::array kPlainNumbers{
    PlainNumber{"paper.white", "white, only fixed, D"},
    PlainNumber{"fog.blank", "blank, developed unexposed, D"},
    PlainNumber{"paper.black", "black, D"},
    PlainNumber{"speed.log_seconds", "speed, log10 of seconds"},
    PlainNumber{"restrainer.half_ml_l", "restrainer that halves fog, ml/L"},
    PlainNumber{"bleach.per_second", "pace of the bleach, D/s"},
};

std::string number_lines(const PackFit& fit, Numbers numbers) {
    std::string text;
    std::size_t others = 0;
    for (const auto& number : fit.numbers) {
        if (number.name.starts_with(kDepartureSection)) continue;
        const auto* plain = std::ranges::find(kPlainNumbers, number.name, &PlainNumber::name);
        if (numbers == Numbers::listed)
            text += number_line(number.name, number);
        else if (plain != kPlainNumbers.end())
            text += number_line(plain->words, number);
        else
            ++others;
    }
    if (others > 0)
        text += "  and " + std::to_string(others) + " more, of curve, filters and baths (listed by --all)\n";
    return text;
}

// Strips whose readings lie far beyond what readings and sheets differ by: a fit puts their misfit down to
// them, not to the laws. Which they are and by how much stands in the table.
std::string misfit_words(const PackFit& fit) {
    if (fit.pack.law_scatter > 0)
        return "the laws miss this paper by " + fixed(fit.pack.law_scatter, 3) + " D";
    constexpr double kFar = 3;
    const double usual = std::hypot(fit.reading_error, fit.pack.sheet_scatter);
    const bool any =
        std::ranges::any_of(fit.strips, [&](const StripFit& strip) { return strip.rms > kFar * usual; });
    return any ? "single strips miss the fit" : "no misfit beyond the reading error";
}

// What the others say of it stands among the contradictions.
bool is_to_tell(const StripFit& strip, const PackFit& fit) {
    return strip.stands_off() && std::ranges::find(fit.contradictions, strip.label, &Contradiction::strip) ==
                                     fit.contradictions.end();
}

std::string off_lines(const PackFit& fit) {
    std::string text;
    for (const auto& strip : fit.strips)
        if (is_to_tell(strip, fit))
            text += (strip.label.empty() ? "The strip without a label" : strip.label) + " came out " +
                    fixed(std::abs(strip.mean), 2) + " D " + (strip.mean > 0 ? "lighter" : "darker") +
                    " than the fit: it may be this sheet, or the paper differs here.\n";
    return text;
}

}  // namespace

std::string fit_text(const PackFit& fit, std::span<const NegativeOnPack> negatives, Numbers numbers) {
    std::string text = "Fit of " + readings_counted(fit.readings.size()) + ": " + fit.in_words() + ".\n";
    text += "Readings err by " + fixed(fit.reading_error, 3) + " D, " + misfit_words(fit) +
            ", sheets differ by " + fixed(fit.pack.sheet_scatter, 3) + " D. The fit meets all readings to " +
            fixed(fit.rms, 3) + " D (root mean square).\n\n";
    text += left("Numbers (+/- one deviation)", 36) + right("before", 20) + right("now", 22) + "\n" +
            number_lines(fit, numbers);
    text += "  " + departure_words(fit.pack) + "\n";
    text += "\n" + left("Strips", 28) + right("readings", 10) + right("off by, D", 12) +
            right("fit minus reading, D", 22) + "\n";
    for (const auto& strip : fit.strips)
        text += left("  " + (strip.label.empty() ? "(no label)" : strip.label), 28) +
                right(std::to_string(strip.readings), 10) + right(fixed(strip.rms, 3), 12) +
                right(fixed(strip.mean, 3), 22) + "\n";
    text += off_lines(fit) + surer_text(negatives);
    return text;
}

std::string fit_json(const PackFit& fit, const std::vector<std::string>& warnings,
                     std::span<const NegativeOnPack> negatives) {
    Json numbers = Json::array(), strips = Json::array(), contradictions = Json::array();
    for (const auto& n : fit.numbers)
        if (!n.name.starts_with(kDepartureSection))
            numbers.push_back({{"name", n.name},
                               {"before", kept(n.before)},
                               {"sd_before", kept(n.doubt_before)},
                               {"value", kept(n.value)},
                               {"sd", kept(n.deviation)},
                               {"state", origin_words()[std::size_t(n.state)]}});
    for (const auto& s : fit.strips)
        strips.push_back({{"strip", s.label},
                          {"readings", s.readings},
                          {"rms", kept(s.rms)},
                          {"mean", kept(s.mean)},
                          {"mean_error", kept(s.mean_error)},
                          {"came_out_otherwise", is_to_tell(s, fit)}});
    for (const auto& c : fit.contradictions)
        contradictions.push_back({{"strip", c.strip},
                                  {"rms", kept(c.rms)},
                                  {"better", c.better ? Json(*c.better) : Json()},
                                  {"rms_better", c.rms_better ? Json(kept(*c.rms_better)) : Json()}});
    Json all{{"fogproof", version()},
             {"pack", fit.pack.name},
             {"ending", fit.in_words()},
             {"converged", fit.ending == Ending::converged},
             {"steps", fit.steps},
             {"readings", fit.readings.size()},
             {"rms", kept(fit.rms)},
             {"reading_error", kept(fit.reading_error)},
             {"law_scatter", kept(fit.pack.law_scatter)},
             {"sheet_scatter", kept(fit.pack.sheet_scatter)},
             {"departure", departure_json(fit.pack)},
             {"numbers", numbers},
             {"strips", strips},
             {"contradictions", contradictions},
             {"warnings", warnings}};
    if (!negatives.empty()) all["negatives"] = surer_json(negatives);
    return json_text(all);
}

}  // namespace fogproof::report
