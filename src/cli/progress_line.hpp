// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One line on a terminal that says how far long work has come and how long it will take, and goes when
// anything else is said.
#pragma once

#include <optional>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// What the line says; nothing in the first second, and nothing when the work is done.
[[nodiscard]] std::optional<std::string> progress_words(const std::string& work, double share,
                                                        double elapsed_s);

/// From now on standard error shows the line, if it is a terminal that can erase it.
void show_progress();
/// Takes the line away, if there is one.
void erase_progress();

}  // namespace fogproof::cli
