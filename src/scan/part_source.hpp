// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Some parts of a file as libvips reads them, one behind the other.
#pragma once

#include <filesystem>
#include <vector>
#include <vips/vips8>

#include "fogproof/rooms.hpp"
#include "scan/file_words.hpp"

namespace fogproof::scan {

/// Throws Error(Fault::no_input) when the file cannot be opened.
[[nodiscard]] vips::VSource part_source(const std::filesystem::path&, std::vector<FilePart>);

}  // namespace fogproof::scan
