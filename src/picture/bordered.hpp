// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pixels in memory as an image, and an even border around one.
#pragma once

#include <cstddef>
#include <span>
#include <vips/vips8>

#include "fogproof/rooms.hpp"

namespace fogproof::picture {

/// Samples of 8 or 16 bits row by row, channels interleaved; copied.
[[nodiscard]] vips::VImage image_of(std::span<const std::byte> samples, int width, int height, int channels,
                                    int bits);
/// So many pixels of one colour on every side, its samples as those of the image.
[[nodiscard]] vips::VImage bordered(const vips::VImage&, int border, std::span<const std::byte> pixel);

}  // namespace fogproof::picture
