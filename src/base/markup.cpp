// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/markup.hpp"

#include <cstddef>

namespace fogproof {
namespace {

// Bytes of the well-formed sequence that text begins with (RFC 3629, section 4); 0 when it begins with none.
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned first = byte(0);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                               : (first & 0xF0) == 0xE0         ? 3
                               : first >= 0xF0 && first <= 0xF4 ? 4
                                                                : 0;
    if (length == 0 || text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(i) & 0xC0) != 0x80) return 0;
    // Neither overlong forms, nor surrogates, nor beyond U+10FFFF.
    const unsigned second = byte(1);
    const bool bad = (first == 0xE0 && second < 0xA0) || (first == 0xED && second > 0x9F) ||
                     (first == 0xF0 && second < 0x90) || (first == 0xF4 && second > 0x8F);
    return bad ? 0 : length;
}

}  // namespace

std::string valid_utf8(std::string_view text) {
    std::string valid;
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        valid += length > 0 ? text.substr(0, length) : std::string_view("\xEF\xBF\xBD");
        text.remove_prefix(length > 0 ? length : 1);
    }
    return valid;
}

std::string harmless(std::string_view text) {
    std::string safe;
    for (const char c : valid_utf8(text)) {
        const auto code = static_cast<unsigned char>(c);
        const bool is_c1 = code >= 0x80 && code < 0xa0 && !safe.empty() && safe.back() == '\xc2';
        if (is_c1) safe.pop_back();
        safe += (code < 0x20 && c != '\n') || code == 0x7f || is_c1 ? '?' : c;
    }
    return safe;
}

std::string escaped_markup(std::string_view text) {
    std::string safe;
    for (const char c : valid_utf8(text)) {
        const auto code = static_cast<unsigned char>(c);
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"')
            safe += "&quot;";
        else
            safe += (code < 0x20 && c != '\t' && c != '\n') || code == 0x7F ? ' ' : c;
    }
    return safe;
}

}  // namespace fogproof
