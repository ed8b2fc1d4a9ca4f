// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What help and manual say of a verb beyond its options: how it works, and examples that are run by the tests
// in a folder with the demo.
#pragma once

#include <CLI/CLI.hpp>
#include <span>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct Example {
    std::string_view command, what;
};

struct VerbWords {
    std::string_view verb;         ///< "pack fit"; empty for the program itself
    std::string_view description;  ///< paragraphs, an empty line between two
    std::span<const Example> examples;
    bool tells_columns = false;  ///< of a readings file too
};

/// Empty words for a verb that has none.
[[nodiscard]] const VerbWords& words_of_verb(std::string_view verb);
/// Puts every verb's examples, and what else it tells, under its --help.
void show_words(CLI::App& program);

}  // namespace fogproof::cli
