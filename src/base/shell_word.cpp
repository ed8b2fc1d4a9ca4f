// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/shell_word.hpp"

#include <algorithm>

namespace fogproof::base {
namespace {

bool is_plain(char c) {
    const bool is_letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    return is_letter || std::string_view("_-./,:@%+").find(c) != std::string_view::npos;
}

}  // namespace

std::string shell_word(std::string_view name) {
    const std::string word = (name.starts_with('-') ? "./" : "") + std::string(name);
    if (!word.empty() && std::ranges::all_of(word, is_plain)) return word;
    std::string quoted = "'";
    for (const char c : word)
        if (c == '\'')
            quoted += "'\\''";
        else
            quoted += c;
    return quoted + "'";
}

}  // namespace fogproof::base
