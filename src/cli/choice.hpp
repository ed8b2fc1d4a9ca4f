// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words and numbers of the command line held against what is allowed.
#pragma once

#include <algorithm>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// Throws Error(Fault::usage) with the nearest word and all allowed ones.
[[noreturn]] inline void refuse_word(std::span<const std::string> words, const std::string& word,
                                     const std::string& place) {
    const auto near = nearest_word(word, words);
    throw Error(Fault::usage, place, "\"" + word + "\"" + (near ? ", perhaps " + *near : ""), listed(words));
}

/// The value of a word; Error(Fault::usage) with the nearest word and all allowed ones.
template <class Value>
[[nodiscard]] Value choice(const std::map<std::string, Value>& allowed, const std::string& word,
                           const std::string& place) {
    if (const auto found = allowed.find(word); found != allowed.end()) return found->second;
    std::vector<std::string> words;
    for (const auto& [name, value] : allowed) words.push_back(name);
    refuse_word(words, word, place);
}

/// The value that stands where the word stands among the words of its kind.
template <class Value>
[[nodiscard]] Value choice(std::span<const std::string> words, const std::string& word,
                           const std::string& place) {
    if (const auto found = std::ranges::find(words, word); found != words.end())
        return Value(found - words.begin());
    refuse_word(words, word, place);
}

/// The number itself when it lies within the limits; Error(Fault::usage) otherwise, NaN included.
[[nodiscard]] inline double within(double value, double lowest, double highest, const std::string& place) {
    if (value >= lowest && value <= highest) return value;
    throw Error(Fault::usage, place, decimal(value, 4), decimal(lowest, 4) + " to " + decimal(highest, 4));
}

}  // namespace fogproof::cli
