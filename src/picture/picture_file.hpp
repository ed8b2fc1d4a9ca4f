// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A finished picture on its way to disk: one file format by suffix, profile and description inside, whole or
// not at all.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vips/vips8>

#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"
#include "picture/profile.hpp"

namespace fogproof::picture {

/// Evaluates the image (8 or 16 bit, as many bands as the profile has channels) and writes it. Metadata of
/// its inputs is left behind. Throws Error(Fault::io) and leaves nothing when reading or writing fails.
/// With `verify` it is drawn a second time and held against what can be read back.
void save_picture(const std::function<vips::VImage()>& drawn, const std::filesystem::path&,
                  const OutputProfile&, const PictureOptions&);
/// The same into a file that the caller names when it is time; `replace` is the file's.
void save_picture(const std::function<vips::VImage()>& drawn, WholeFile&, const OutputProfile&,
                  const PictureOptions&);
/// The same for an image that can be evaluated any number of times.
void save_picture(const vips::VImage&, const std::filesystem::path&, const OutputProfile&,
                  const PictureOptions&);
/// The same as the bytes of a JPEG; the picture is one of our own, 8 bit.
[[nodiscard]] std::string jpeg_bytes(const vips::VImage&, const OutputProfile&, const PictureOptions&);

/// What the picture says about itself as an XMP packet, empty when nothing.
[[nodiscard]] std::string xmp_of(const PictureOptions&, PictureFormat);

}  // namespace fogproof::picture
