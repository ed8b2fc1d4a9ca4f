// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/console.hpp"

#include <iostream>

#include "fogproof/base/markup.hpp"

namespace fogproof::cli {
namespace {

// Messages repeat what stands in files and names, and that must not steer the terminal: control characters of
// ISO 646 and ISO 6429 (C1, in UTF-8) become question marks, line ends stay.
std::string harmless(const std::string& text) {
    std::string safe;
    for (const char c : valid_utf8(text)) {
        const auto code = static_cast<unsigned char>(c);
        const bool is_c1 = code >= 0x80 && code < 0xa0 && !safe.empty() && safe.back() == '\xc2';
        if (is_c1) safe.pop_back();
        safe += (code < 0x20 && c != '\n') || code == 0x7f || is_c1 ? '?' : c;
    }
    return safe;
}

}  // namespace

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
