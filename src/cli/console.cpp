// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/console.hpp"

#include <iostream>

namespace fogproof::cli {

void Console::notes(const std::vector<std::string>& lines, const std::string& place) const {
    if (quiet) return;
    for (const auto& line : lines)
        std::cerr << "fogproof: " << (place.empty() ? "" : place + ": ") << line << '\n';
}

void Console::detail(const std::string& line) const {
    if (verbose) std::cerr << "fogproof: " << line << '\n';
}

void Console::fault(const std::string& line) {
    std::cerr << "fogproof: " << line << '\n';
}

}  // namespace fogproof::cli
