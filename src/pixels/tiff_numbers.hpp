// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Numbers of TIFF 6.0 and of the specifications that add to it: BigTIFF, ICC.1 and XMP for their tags, CIPA
// DC-008 (Exif) for those of cameras.
#pragma once

#include <cstdint>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels::tiff {

enum Type : std::uint16_t {
    kByte = 1,
    kAscii = 2,
    kShort = 3,
    kLong = 4,
    kRational = 5,
    kUndefined = 7,
    kFloat = 11,
    kDouble = 12,
    kIfd = 13,
    kLong8 = 16,
    kIfd8 = 18,
};

enum Tag : std::uint16_t {
    kInteropIndex = 1,
    kImageWidth = 256,
    kImageLength = 257,
    kBitsPerSample = 258,
    kCompression = 259,
    kPhotometric = 262,
    kStripOffsets = 273,
    kOrientation = 274,
    kSamplesPerPixel = 277,
    kRowsPerStrip = 278,
    kStripByteCounts = 279,
    kXResolution = 282,
    kYResolution = 283,
    kPlanarConfiguration = 284,
    kResolutionUnit = 296,
    kTransferFunction = 301,
    kPredictor = 317,
    kTileWidth = 322,
    kSampleFormat = 339,
    kXmp = 700,
    kExif = 34665,
    kIccProfile = 34675,
    kColourSpace = 40961,
    kInterop = 40965,
};

}  // namespace fogproof::pixels::tiff
