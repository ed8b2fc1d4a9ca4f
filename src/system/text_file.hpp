// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Files of text that are read: packs, recipes, readings, lists, settings. A picture handed in where a text is
// wanted, a scan's name after --pack, say, is told as such.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// The whole content of a file of at most `limit` bytes. Throws Error(Fault::no_input) when it cannot be
/// opened, and Error(Fault::data) when it begins as a picture does (picture_kind.hpp), of whatever size
/// ("PLACE: is a TIFF picture; WANTED"), with a byte order mark of UTF-16, or is larger than the limit.
[[nodiscard]] std::string read_text(const std::filesystem::path& source, std::size_t limit,
                                    const std::string& wanted);

}  // namespace fogproof::system
