// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/words.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace fogproof::base {

std::string fixed(double value, int digits) {
    char buffer[400];
    const auto end =
        std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, digits).ptr;
    std::string text(buffer, end);
    const bool is_zero = text.find_first_of("123456789") == std::string::npos && std::isfinite(value);
    if (is_zero && text.front() == '-') text.erase(0, 1);
    return text;
}

std::string decimal(double value, int digits) {
    std::string text = fixed(value, digits);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text;
}

std::string two_digits(double value) {
    if (value <= 0) return "0";
    const double unit = std::pow(10.0, std::floor(std::log10(value)) - 1);
    return decimal(std::round(value / unit) * unit, value < 10 ? 2 : 0);
}

std::optional<double> number_in(std::string_view text) {
    text = trimmed(text);
    if (text.starts_with('+')) {
        text.remove_prefix(1);
        if (text.starts_with('-')) return std::nullopt;
    }
    double value = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (fault != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t\r\n";
    const auto first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::string in_lower_case(std::string_view text) {
    std::string lower(text);
    std::ranges::transform(lower, lower.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? char(c + 32) : c; });
    return lower;
}

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> parts;
    while (true) {
        const auto cut = text.find(separator);
        parts.emplace_back(text.substr(0, cut));
        if (cut == std::string_view::npos) return parts;
        text.remove_prefix(cut + 1);
    }
}

namespace {

std::size_t slips_between(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i)
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t swap = a[i - 1] == b[j - 1] ? 0 : 1;
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + swap});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    return d[a.size()][b.size()];
}

std::size_t letters_of(std::string_view word) {
    return word.size() - std::min(word.find_first_not_of('-'), word.size());
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string> candidates) {
    if (word.size() > 64) return std::nullopt;
    constexpr std::size_t kMost = 2, kShort = 4;
    std::optional<std::string> nearest;
    std::size_t fewest = kMost + 1;
    for (const auto& candidate : candidates) {
        const std::size_t allowed = std::min(letters_of(word), letters_of(candidate)) < kShort ? 1 : kMost;
        if (const std::size_t slips = slips_between(word, candidate); slips <= allowed && slips < fewest) {
            fewest = slips;
            nearest = candidate;
        }
    }
    return nearest;
}

std::string listed(std::span<const std::string> words) {
    std::string text;
    for (const auto& word : words) text.append(text.empty() ? "" : ", ").append(word);
    return text;
}

}  // namespace fogproof::base
