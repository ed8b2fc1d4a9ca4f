// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/console.hpp"

#include <iostream>

#include "cli/progress_line.hpp"
#include "fogproof/base/markup.hpp"

namespace fogproof::cli {

void Console::notes(const std::vector<std::string>& lines, const std::string& place) const {
    if (quiet) return;
    erase_progress();
    for (const auto& line : lines)
        std::cerr << "fogproof: " << harmless(place.empty() ? line : place + ": " + line) << '\n';
}

void Console::detail(const std::string& line) const {
    if (!verbose) return;
    erase_progress();
    std::cerr << "fogproof: " << harmless(line) << '\n';
}

void Console::fault(const std::string& line) {
    erase_progress();
    std::cerr << "fogproof: " << harmless(line) << '\n';
}

}  // namespace fogproof::cli
