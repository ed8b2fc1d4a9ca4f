// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Names in commands that people copy into a shell.
#pragma once

#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// The name as one word of a POSIX shell (POSIX.1-2017, Shell Command Language, 2.2): as it stands where it
/// is plain, else in single quotes. A name that begins with a dash is told as in this folder, ./-x.
[[nodiscard]] std::string shell_word(std::string_view name);

}  // namespace fogproof::base
