// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the reader of TIFF lines gives, as an image of libvips, so that every picture made of a scan comes
// from the same reader, whatever format it is written in.
#pragma once

#include <vips/vips8>

#include "fogproof/rooms.hpp"
#include "pixels/tiff_scan.hpp"

namespace fogproof::scan {

/// Domain of the complaint when lines cannot be read; what follows it, up to the mark, is the whole message.
inline constexpr char kLinesComplaint[] = "fogproof-lines";
inline constexpr char kMessageEnd = '\x1f';

/// The stored pixels; read when they are asked for, in any order. Grey with alpha in a plane of its own is
/// grey.
[[nodiscard]] vips::VImage tiff_image(const TiffScan&);

}  // namespace fogproof::scan
