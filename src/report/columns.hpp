// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words in columns of a fixed width, for a terminal.
#pragma once

#include <algorithm>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Two blanks behind what is too long for its column, so that columns never run together.
[[nodiscard]] inline std::string left(const std::string& text, std::size_t width) {
    return text + (text.size() < width ? std::string(width - text.size(), ' ') : "  ");
}

[[nodiscard]] inline std::string right(const std::string& text, std::size_t width) {
    return std::string(width - std::min(width, text.size()), ' ') + text;
}

}  // namespace fogproof::report
