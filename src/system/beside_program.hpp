// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What came with the program: files that lie where an archive of it was unpacked, wherever that is.
#pragma once

#include <filesystem>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// PREFIX/share/fogproof/`name`, PREFIX/bin being the folder of the running program. Nothing says that it
/// exists; empty where the kernel does not tell which program runs.
[[nodiscard]] std::filesystem::path beside_program(const std::filesystem::path& name);

}  // namespace fogproof::system
