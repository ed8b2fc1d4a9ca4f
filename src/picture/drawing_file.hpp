// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A drawing of our own (SVG text) on its way to disk: as it is, or as a PNG picture.
#pragma once

#include <filesystem>
#include <string>

#include "fogproof/rooms.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {

/// Refuses a suffix other than .svg and .png: Error(Fault::usage).
void refuse_undrawable(const std::filesystem::path&);
/// Writes a drawing by its suffix; PNG at 2 pixels for each unit of the drawing. Only for drawings made by
/// this program: the loader is not one for files of unknown origin.
void save_drawing(const std::string& svg, const std::filesystem::path&, WholeFile::Replace);
/// The same into a file that the caller names when it is time.
void save_drawing(const std::string& svg, WholeFile&);

}  // namespace fogproof::picture
