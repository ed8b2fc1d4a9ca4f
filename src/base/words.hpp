// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Numbers and words as they are shown to people: the same text on every machine, whatever its locale.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// value with at most `digits` decimals, trailing zeros dropped, "-0" avoided, decimal point always '.'.
[[nodiscard]] std::string decimal(double value, int digits);
/// value with exactly `digits` decimals.
[[nodiscard]] std::string fixed(double value, int digits);
/// Two significant digits, and two decimals at the most: "8.4", "12", "130"; "0" for nothing and less.
[[nodiscard]] std::string two_digits(double);
/// A whole string read as one finite number; nothing if anything else stands in it.
[[nodiscard]] std::optional<double> number_in(std::string_view text);
/// text without white space at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);
/// The same in lower case, ASCII letters alone.
[[nodiscard]] std::string in_lower_case(std::string_view text);
/// The parts of text between separators, empty parts kept.
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);
/// The candidate that is at most two slips of the finger from word, one where either has fewer than four
/// letters (Damerau 1964, restricted edit distance); nothing if none is.
[[nodiscard]] std::optional<std::string> nearest_word(std::string_view word,
                                                      std::span<const std::string> candidates);
/// Words joined as "a, b, c".
[[nodiscard]] std::string listed(std::span<const std::string> words);

}  // namespace fogproof::base
