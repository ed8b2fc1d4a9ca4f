// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Files that are read: whether they are there, whether they may be read, and which one was meant.
#pragma once

#include <filesystem>

#include "fogproof/rooms.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::system {

/// A regular file, opened for reading. Throws Error(Fault::no_input) when it does not
/// exist (with the nearest name beside it), is no regular file or may not be read.
[[nodiscard]] FileDescriptor opened_input(const std::filesystem::path&);
/// True for an existing folder; what cannot be looked at is none.
[[nodiscard]] bool is_folder(const std::filesystem::path&);

}  // namespace fogproof::system
