// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <sstream>
#include <string>

#include "support/rooms.hpp"

namespace fogproof::tests {

/// Words with one blank between them, whatever lines they stood on.
inline std::string folded(const std::string& text) {
    std::istringstream words(text);
    std::string all;
    for (std::string word; words >> word;) all += (all.empty() ? "" : " ") + word;
    return all;
}

}  // namespace fogproof::tests
