// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Levels as a picture that is read as levels again.
#pragma once

#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {

/// Grey of 16 bits in the format of the file's suffix, white for full: a mask of a recipe, a map of a sheet.
void save_levels(const LevelGrid&, WholeFile&);

}  // namespace fogproof::picture
