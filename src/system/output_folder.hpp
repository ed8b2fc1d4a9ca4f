// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Folders made for outputs.
#pragma once

#include <filesystem>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Throws Error(Fault::cannot_create) when the folder neither exists nor can be made, before work begins.
void require_folder_can_be(const std::filesystem::path& folder);
/// Makes the folder and those it lies in; one that exists is left as it is. Throws
/// Error(Fault::cannot_create).
void make_folder(const std::filesystem::path& folder);

}  // namespace fogproof::system
