// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An image operation: pixels of any samples -> one band of 16-bit codes in equal steps of density.
#pragma once

#include <functional>
#include <span>
#include <vips/vips8>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

/// Light of one line of pixels. May throw; its text then becomes libvips' complaint in the domain below.
using LineLight = std::function<void(const void* samples, std::span<float> light)>;
inline constexpr char kSampleComplaint[] = "sample";

/// Lazily evaluated, line by line; codes as light_of_log_codes has them.
[[nodiscard]] vips::VImage log_coded(const vips::VImage& pixels, LineLight);

}  // namespace fogproof::scan
