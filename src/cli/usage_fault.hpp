// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One line for a command line that cannot be understood.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// Place, what was found, what is allowed; the nearest known option or verb where a word is unknown.
[[nodiscard]] std::string usage_fault(const CLI::App& program, const CLI::ParseError&);

}  // namespace fogproof::cli
