// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The files that a command line names as inputs, with their contents.
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "support/rooms.hpp"

namespace fogproof::tests {

[[nodiscard]] std::string content_of(const std::filesystem::path& path);

/// By the name in the line; a file of a list by its place.
using NamedInputs = std::map<std::string, std::string>;

/// One word of a shell's line without what a shell takes away; what it stands behind.
struct ShellWord {
    std::string option, name;
    bool is_redirected;
};

[[nodiscard]] std::vector<ShellWord> shell_words(const std::string& line);

/// Files that are there, that the line or a list in it names and that are not named as outputs. A pack may be
/// fitted again in its place.
[[nodiscard]] NamedInputs named_inputs(const std::filesystem::path& folder, const std::string& line);

}  // namespace fogproof::tests
