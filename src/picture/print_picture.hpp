// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was looked at in the scan of a print, for the eye: where the negative's frame lies and which places
// were read.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "reading/print_reading.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {

/// Writes an sRGB picture (.png .tif .jpg) into a file that the caller names when it is time; `title` stands
/// above it.
void save_print_picture(const ReflectionImage&, const PrintReading&, const std::string& title, WholeFile&);

}  // namespace fogproof::picture
