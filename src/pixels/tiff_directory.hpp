// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The header and directory of a TIFF that is written (TIFF 6.0; BigTIFF as libtiff's authors describe it).
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// Bytes of picture up to which a classic TIFF is written; its offsets end at 4 GiB.
inline constexpr double kLargestClassicTiff = 3.9e9;

struct TiffPicture {
    int width = 0, height = 0, channels = 3, bits = 16;
    int lines_per_strip = 1;
    bool deflate = false;
    double pixels_per_mm = 1;
    std::vector<std::uint8_t> icc;
    std::string xmp;  ///< absent when empty

    [[nodiscard]] std::size_t line_bytes() const {
        return std::size_t(width) * std::size_t(channels) * std::size_t(bits / 8);
    }
    [[nodiscard]] std::uint64_t pixel_bytes() const { return std::uint64_t(height) * line_bytes(); }
    [[nodiscard]] std::size_t strips() const {
        return std::size_t((height + lines_per_strip - 1) / lines_per_strip);
    }
};

/// Where a strip lies in its file.
struct StoredStrip {
    std::uint64_t offset = 0, bytes = 0;
};

/// All that precedes the first strip. Its length depends on the number of strips alone, not on their places.
[[nodiscard]] std::vector<std::byte> tiff_head(const TiffPicture&, std::span<const StoredStrip>);

}  // namespace fogproof::pixels
