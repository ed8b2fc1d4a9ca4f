// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What every value on the command line and in the settings must be, whichever option it belongs to: not
// empty, and a number where one is wanted. CLI11 alone would take 010 for 8, 0x5A for 90, "[a,b]" for two
// values, and the next word for a value that is empty.
#pragma once

#include <CLI/CLI.hpp>
#include <span>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

// Names of types, as --help shows them, whose values may carry their unit.
inline constexpr const char* kDilution = "1+N";
inline constexpr const char* kSeconds = "SECONDS";
inline constexpr const char* kMillilitres = "ML/L";
inline constexpr const char* kMillimetres = "MM";

/// Refuses "--option=" with nothing behind it.
void refuse_empty_values(std::span<char* const> words);
/// Holds the values of all options of all verbs against the above. To be called when all are added.
void hold_values(CLI::App& program);

}  // namespace fogproof::cli
