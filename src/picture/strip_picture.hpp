// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was looked at in a scan, for the eye: the scan with the areas that were read and their densities.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "reading/strip_reading.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {

/// Writes an sRGB picture (.png .tif .jpg) into a file that the caller names when it is time; `title` stands
/// above it, with what became of each piece.
void save_strip_picture(const ReflectionImage&, const ScanReading&, const std::string& title, WholeFile&);

}  // namespace fogproof::picture
