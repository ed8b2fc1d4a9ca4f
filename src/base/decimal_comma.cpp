// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/decimal_comma.hpp"

#include "base/words.hpp"

namespace fogproof::base {

std::optional<std::string> with_decimal_point(std::string_view text) {
    std::string number(trimmed(text));
    const auto comma = number.find(',');
    if (comma == std::string::npos) return std::nullopt;
    number[comma] = '.';
    // A unit may follow: all behind the last digit.
    const auto last = number.find_last_of("0123456789");
    if (last == std::string::npos || last < comma || !number_in(number.substr(0, last + 1)))
        return std::nullopt;
    return number;
}

std::string comma_advice(std::string_view text) {
    const auto number = with_decimal_point(text);
    return number ? " (a decimal comma? write " + *number + ")" : "";
}

bool has_decimal_comma(std::string_view text) {
    const auto is_digit = [&](std::size_t at) {
        return at < text.size() && text[at] >= '0' && text[at] <= '9';
    };
    for (auto comma = text.find(','); comma != std::string_view::npos; comma = text.find(',', comma + 1))
        if (comma > 0 && is_digit(comma - 1) && is_digit(comma + 1)) return true;
    return false;
}

}  // namespace fogproof::base
