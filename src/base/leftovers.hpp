// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Names of temporary files, by which those of killed processes are known again.
#pragma once

#include <filesystem>
#include <string>

namespace fogproof {

/// The name under which this process writes a file before it is whole: hidden, beside the target, and telling
/// whose it is.
[[nodiscard]] std::string temporary_name(const std::filesystem::path& target);
/// Takes the open temporary file for this process until its descriptor is closed.
void hold_temporary(int descriptor);

}  // namespace fogproof
