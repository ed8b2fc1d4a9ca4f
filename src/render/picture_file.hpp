// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A finished picture on its way to disk: one file format by suffix, profile and description inside, whole or
// not at all.
#pragma once

#include <filesystem>
#include <string>
#include <vips/vips8>

#include "fogproof/base/whole_file.hpp"
#include "fogproof/render/profile.hpp"

namespace fogproof {

enum class PictureFormat { tiff, png, jpeg };

struct PictureOptions {
    double pixels_per_mm = 300.0 / 25.4;
    std::string xmp = {};   ///< a packet, or empty
    bool compress = false;  ///< TIFF only: deflate; PNG and JPEG always are
    int jpeg_quality = 95;
    WholeFile::Replace replace = WholeFile::Replace::never;
};

/// The format of a suffix; Error(Fault::usage) lists the suffixes there are.
[[nodiscard]] PictureFormat picture_format(const std::filesystem::path&);
/// Refuses what the format of the path cannot hold, before any work is done: Error(Fault::usage).
void refuse_unsavable(const std::filesystem::path&, int width, int height, int bits);
/// Refuses an output that is the input under any name: Error(Fault::usage).
void refuse_same(const std::filesystem::path& input, const std::filesystem::path& output);

/// Evaluates the image (8 or 16 bit, as many bands as the profile has channels) and writes it. Metadata of
/// its inputs is left behind. Throws Error(Fault::io) and leaves nothing when reading or writing fails.
void save_picture(const vips::VImage&, const std::filesystem::path&, const OutputProfile&,
                  const PictureOptions&);

}  // namespace fogproof
