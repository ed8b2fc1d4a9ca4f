// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/console.hpp"

#include <iostream>

#include "fogproof/base/markup.hpp"

namespace fogproof::cli {
void Console::notes(const std::vector<std::string>& lines, const std::string& place) const {
    if (quiet) return;
    for (const auto& line : lines)
        std::cerr << "fogproof: " << harmless(place.empty() ? line : place + ": " + line) << '\n';
}

void Console::detail(const std::string& line) const {
    if (verbose) std::cerr << "fogproof: " << harmless(line) << '\n';
}

void Console::fault(const std::string& line) {
    std::cerr << "fogproof: " << harmless(line) << '\n';
}

}  // namespace fogproof::cli
