// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <filesystem>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// A path that a file tells, from the folder that the file is in. Without the steps up and down where that is
/// the same place: behind a link to a folder ".." is not what the letters say.
[[nodiscard]] std::filesystem::path path_beside(const std::filesystem::path& folder,
                                                const std::filesystem::path& told);

}  // namespace fogproof::system
