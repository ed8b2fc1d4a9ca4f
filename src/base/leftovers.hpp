// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Temporary files of processes that were killed before they could remove them.
#pragma once

#include <filesystem>
#include <string>

namespace fogproof {

/// The name under which this process writes a file before it is whole: hidden, beside the target, and telling
/// whose it is.
[[nodiscard]] std::string temporary_name(const std::filesystem::path& target);
/// Takes the open temporary file for this process until its descriptor is closed.
void hold_temporary(int descriptor);
/// Removes the temporary files in a folder whose process has ended and that no process holds any more.
void sweep_leftovers(const std::filesystem::path& folder);

}  // namespace fogproof
