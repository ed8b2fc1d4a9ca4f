// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Names of temporary files, by which those of killed processes are known again.
#pragma once

#include <sys/types.h>

#include <filesystem>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// The name under which this process keeps a file before it is whole: hidden, telling whose it is, and short
/// whatever the target is called. It tells the file's inode too, so that no copy and no other file of such a
/// name is taken for it.
[[nodiscard]] std::filesystem::path temporary_name(ino_t);
/// A name for a file whose inode is not known yet.
[[nodiscard]] std::filesystem::path first_name();
/// Takes the open temporary file for this process until its descriptor is closed.
void hold_temporary(int descriptor);

}  // namespace fogproof::system
