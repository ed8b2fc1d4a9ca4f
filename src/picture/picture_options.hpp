// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a finished picture is written to disk.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "fogproof/rooms.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {

enum class PictureFormat { tiff, png, jpeg };

/// What a picture says about its own making, name and value; kept in its XMP packet.
using Description = std::vector<std::pair<std::string, std::string>>;

struct PictureOptions {
    int bits = 16;  ///< 8 or 16 a channel
    double pixels_per_mm = 300.0 / 25.4;
    Description description;
    bool compress = false;  ///< TIFF only: deflate; PNG and JPEG always are
    int jpeg_quality = 95;
    bool verify = false;  ///< read the picture back before it takes its name
    WholeFile::Replace replace = WholeFile::Replace::never;
};

/// The format of a suffix; Error(Fault::usage) lists the suffixes there are.
[[nodiscard]] PictureFormat picture_format(const std::filesystem::path&);
/// What of a description a picture of this format has room for: all of it in TIFF and PNG; a JPEG holds some
/// 64 KB, so properties that are too long are left out, the first one last.
[[nodiscard]] Description held_by(PictureFormat, Description);
/// Refuses what the format of the path cannot hold, before any work is done: Error(Fault::usage).
void refuse_unsavable(const std::filesystem::path&, int width, int height, int bits);

}  // namespace fogproof::picture
