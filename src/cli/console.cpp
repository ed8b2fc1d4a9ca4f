// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/console.hpp"

#include <iostream>

#include "base/markup.hpp"
#include "cli/progress_line.hpp"

namespace fogproof::cli {

namespace {

void say(const char* kind, const std::vector<std::string>& lines, const std::string& place) {
    erase_progress();
    for (const auto& line : lines)
        std::cerr << "fogproof: " << kind << plain_line(place.empty() ? line : place + ": " + line) << '\n';
}

}  // namespace

void Console::notes(const std::vector<std::string>& lines, const std::string& place) const {
    if (!quiet) say("", lines, place);
}

void Console::warnings(const std::vector<std::string>& lines, const std::string& place) {
    say("warning: ", lines, place);
}

void Console::cautions(const std::vector<std::string>& lines, const std::string& place) {
    say("caution: ", lines, place);
}

void Console::remarks(const Remarks& remarks, const std::string& place) const {
    notes(remarks.notes, place);
    warnings(remarks.warnings, place);
}

void Console::detail(const std::string& line) const {
    if (verbose) say("", {line}, {});
}

void Console::answer(std::string_view text) {
    std::cout << harmless(text);
}

void Console::fault(const std::string& line) {
    erase_progress();
    std::cerr << "fogproof: " << harmless(line) << '\n';
}

}  // namespace fogproof::cli
