// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pixels in memory as an image, and a border around them.
#pragma once

#include <cstddef>
#include <span>
#include <vips/vips8>

#include "fogproof/rooms.hpp"
#include "pixels/print_border.hpp"

namespace fogproof::picture {

/// Samples of 8 or 16 bits row by row, channels interleaved; copied.
[[nodiscard]] vips::VImage image_of(std::span<const std::byte> samples, int width, int height, int channels,
                                    int bits);
/// The same inside its border.
[[nodiscard]] vips::VImage bordered(std::span<const std::byte> samples, int width, int height,
                                    const PrintBorder&, int channels, int bits);

}  // namespace fogproof::picture
