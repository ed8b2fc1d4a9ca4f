// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/amounts.hpp"

#include <optional>

#include "fogproof/base/error.hpp"
#include "fogproof/base/words.hpp"

namespace fogproof {
namespace {

std::optional<double> number_before(std::string_view text, std::string_view unit) {
    text = trimmed(text);
    if (!text.ends_with(unit)) return std::nullopt;
    return number_in(text.substr(0, text.size() - unit.size()));
}

[[noreturn]] void refuse(const std::string& place, std::string_view text, const std::string& allowed) {
    throw Error(Fault::usage, place, "\"" + std::string(text) + "\" is no amount", allowed);
}

}  // namespace

std::variant<Stops, Seconds> exposure_amount(std::string_view text, const std::string& place) {
    text = trimmed(text);
    if (const auto stops = number_before(text, "stop")) return Stops{*stops};
    const bool is_signed = text.starts_with('+') || text.starts_with('-');
    if (const auto value = number_before(text, ""); value && is_signed) return Stops{*value};
    for (const auto unit : {"s", ""})
        if (const auto seconds = number_before(text, unit); seconds && !is_signed) return Seconds{*seconds};
    refuse(place, text, "seconds (12s) or stops from the starting exposure (+1, -0.5)");
}

std::variant<Seconds, ClearingPercent> bleach_amount(std::string_view text, const std::string& place) {
    if (const auto percent = number_before(text, "%")) return ClearingPercent{*percent};
    for (const auto unit : {"s", ""})
        if (const auto seconds = number_before(text, unit)) return Seconds{*seconds};
    refuse(place, text, "seconds (40s) or percent of clearing (100%)");
}

double plain_amount(std::string_view text, std::string_view unit, const std::string& place) {
    for (const auto suffix : {unit, std::string_view{}})
        if (const auto value = number_before(text, suffix)) return *value;
    refuse(place, text, "a number in " + std::string(unit));
}

}  // namespace fogproof
