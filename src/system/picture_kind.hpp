// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pictures told by how their files begin, whatever they are called.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Those that are read.
enum class PictureKind { tiff, png, jpeg };
/// The same in words.
inline constexpr char kPictureKinds[] = "TIFF, PNG or JPEG";

/// "TIFF".
[[nodiscard]] std::string name_of(PictureKind);
/// The kind of a file that begins so: eight bytes tell.
[[nodiscard]] std::optional<PictureKind> picture_kind_of(std::string_view beginning);
/// Throws as opened_input() does.
[[nodiscard]] std::optional<PictureKind> picture_kind(const std::filesystem::path&);

/// The first bytes of a file, at most so many. Throws as opened_input() does.
[[nodiscard]] std::string beginning_of(const std::filesystem::path&, std::size_t most);

}  // namespace fogproof::system
