// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a command reads, so that none of it is written over.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "system/run_files.hpp"

namespace fogproof::cli {

/// A run that reads these files, names that are empty left out, and the settings of the darkroom.
[[nodiscard]] RunFiles run_that_reads(const std::vector<std::string>& inputs);

}  // namespace fogproof::cli
