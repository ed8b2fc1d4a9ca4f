// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words and numbers of the command line held against what is allowed.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// The value of a word; Error(Fault::usage) with the nearest word and all allowed ones.
template <class Value>
[[nodiscard]] Value choice(const std::map<std::string, Value>& allowed, const std::string& word,
                           const std::string& place) {
    if (const auto found = allowed.find(word); found != allowed.end()) return found->second;
    std::vector<std::string> words;
    for (const auto& [name, value] : allowed) words.push_back(name);
    const auto near = nearest_word(word, words);
    throw Error(Fault::usage, place, "\"" + word + "\"" + (near ? ", perhaps " + *near : ""), listed(words));
}

/// The number itself when it lies within the limits; Error(Fault::usage) otherwise, NaN included.
[[nodiscard]] inline double within(double value, double lowest, double highest, const std::string& place) {
    if (value >= lowest && value <= highest) return value;
    throw Error(Fault::usage, place, decimal(value, 4), decimal(lowest, 4) + " to " + decimal(highest, 4));
}

}  // namespace fogproof::cli
