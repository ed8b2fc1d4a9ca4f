// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/markup.hpp"

#include <algorithm>
#include <cstddef>

namespace fogproof::base {
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

char32_t character(std::string_view sequence) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(sequence[i]); };
    if (sequence.size() == 1) return byte(0);
    char32_t code = byte(0) & (0xFFu >> (sequence.size() + 1));
    for (std::size_t i = 1; i < sequence.size(); ++i) code = code << 6 | (byte(i) & 0x3Fu);
    return code;
}

// What steers a terminal, ends a line or turns a reading direction instead of being seen, and what XML 1.0
// has no place for: C0, DEL and C1 (ISO 6429), line and paragraph separator, embeddings, overrides and
// isolates (Unicode annex 9), U+FFFE and U+FFFF.
bool is_seen(char32_t code) {
    const auto within = [code](char32_t first, char32_t last) { return code >= first && code <= last; };
    return !(code < 0x20 || within(0x7F, 0x9F) || within(0x2028, 0x202E) || within(0x2066, 0x2069) ||
             within(0xFFFE, 0xFFFF));
}

// The text as valid UTF-8, with one word for each character that is not seen, but for some kept as they are.
std::string seen(std::string_view text, std::string_view kept, std::string_view instead) {
    std::string out;
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        const std::string_view sequence = text.substr(0, std::max<std::size_t>(length, 1));
        if (length == 0)
            out += "\xEF\xBF\xBD";
        else if (is_seen(character(sequence)) || kept.find(sequence) != std::string_view::npos)
            out += sequence;
        else
            out += instead;
        text.remove_prefix(sequence.size());
    }
    return out;
}

// Bytes of the form 10xxxxxx go on with a character (RFC 3629).
bool goes_on(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0) == 0x80;
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
    return seen(text, "\n", "?");
}

std::string plain_line(std::string_view text) {
    return seen(text, "", "?");
}

std::string_view beginning_within(std::string_view text, std::size_t bytes) {
    if (text.size() <= bytes) return text;
    while (bytes > 0 && goes_on(text[bytes])) --bytes;
    return text.substr(0, bytes);
}

std::string shortened(std::string_view text, std::size_t most) {
    constexpr std::string_view kDots = " ... ";
    if (text.size() <= most || most < kDots.size()) return std::string(text);
    const std::size_t half = (most - kDots.size()) / 2;
    std::size_t tail = text.size() - half;
    while (tail < text.size() && goes_on(text[tail])) ++tail;
    return std::string(beginning_within(text, half)).append(kDots).append(text.substr(tail));
}

bool is_plain_line(std::string_view text) {
    return plain_line(text) == text;
}

std::string escaped_markup(std::string_view text) {
    std::string safe;
    for (const char c : seen(text, "\t\n", " ")) {
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"')
            safe += "&quot;";
        else
            safe += c;
    }
    return safe;
}

}  // namespace fogproof::base
