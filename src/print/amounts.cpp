// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/amounts.hpp"

#include <optional>

#include "base/decimal_comma.hpp"
#include "base/words.hpp"
#include "base/written_time.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::print {
namespace {

std::optional<double> number_before(std::string_view text, std::string_view unit) {
    text = trimmed(text);
    if (!text.ends_with(unit)) return std::nullopt;
    return number_in(text.substr(0, text.size() - unit.size()));
}

// A part of a stop is often written as a fraction: 1/3.
std::optional<double> stops_in(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) return number_in(text);
    const auto above = number_in(text.substr(0, slash)), below = number_in(text.substr(slash + 1));
    if (!above || !below || *below <= 0) return std::nullopt;
    return *above / *below;
}

[[noreturn]] void refuse(const std::string& place, std::string_view text, const std::string& allowed) {
    throw Error(Fault::usage, place, "\"" + std::string(text) + "\" is no amount" + comma_advice(text),
                allowed);
}

// "1-4", which people write for several values.
bool is_span(std::string_view text) {
    const auto dash = text.find('-', 1);
    return dash != std::string_view::npos && number_in(text.substr(0, dash)) &&
           number_in(text.substr(dash + 1));
}

}  // namespace

std::optional<Stops> stops_told(std::string_view text) {
    text = trimmed(text);
    if (text.ends_with("stop")) text = trimmed(text.substr(0, text.size() - 4));
    const auto stops = stops_in(text);
    return stops ? std::optional(Stops{*stops}) : std::nullopt;
}

std::variant<Stops, Seconds> exposure_amount(std::string_view text, const std::string& place) {
    text = trimmed(text);
    if (text.ends_with("stop"))
        if (const auto stops = stops_told(text)) return *stops;
    const bool is_signed = text.starts_with('+') || text.starts_with('-');
    if (const auto stops = stops_in(text); stops && is_signed) return Stops{*stops};
    const auto bare = stops_in(text);
    if (const auto seconds = seconds_in(text); seconds && !bare && !is_signed) return Seconds{*seconds};
    if (bare) {
        if (*bare == 0) return Stops{0};  // no time at all would be no print
        const std::string number(text);
        throw Error(Fault::usage, place, "\"" + number + "\" may be seconds or stops",
                    number + "s for seconds, +" + number + " for stops from the starting exposure");
    }
    refuse(place, text, "a time (12s, 1:30, 2min) or stops from the starting exposure (+1, -0.5, +1/3)");
}

std::variant<Seconds, ClearingPercent> bleach_amount(std::string_view text, const std::string& place) {
    if (const auto percent = number_before(text, "%")) return ClearingPercent{*percent};
    if (const auto seconds = seconds_in(text)) return Seconds{*seconds};
    refuse(place, text, "a time (40s, 1:30, 2min) or percent of clearing (100%)");
}

double plain_amount(std::string_view text, std::string_view unit, const std::string& place) {
    if (unit == "s")
        if (const auto seconds = seconds_in(text)) return *seconds;
    for (const auto suffix : {unit, std::string_view{}})
        if (const auto value = number_before(text, suffix)) return *value;
    const std::string plain = unit == "s"    ? "a time, as 90, 90s, 1:30 or 2min"
                              : unit.empty() ? "a number"
                                             : "a number in " + std::string(unit);
    refuse(place, text, is_span(text) ? plain + "; several values each by itself, as 1,2,3,4" : plain);
}

}  // namespace fogproof::print
