// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a picture of ours says about its own making, read back out of any kind of file.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::picture {

/// A property that xmp_packet() wrote into a file; nothing where there is none. The packet is found by its
/// own marks wherever it stands, which is what ISO 16684-1 wraps packets for. Throws as opened_input() does,
/// and Error(Fault::io) where the file cannot be read to its end.
[[nodiscard]] std::optional<std::string> property_of_picture(const std::filesystem::path&,
                                                             const std::string& name);

}  // namespace fogproof::picture
