// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan as it lies on disk: which loader reads it, its header, its pixels.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>
#include <vips/vips8>

namespace fogproof {

/// True when a readable file begins as a TIFF, PNG or JPEG does.
[[nodiscard]] bool begins_like_picture(const std::filesystem::path&);

/// An image file whose header has been read and found possible. Its pixels are read anew at every `upright`.
class ScanFile {
  public:
    /// Throws Error(no_input) when path is no readable regular file, Error(data) when its content is no image
    /// (TIFF, PNG or JPEG), one with more than max_pixels, or one that promises more than a file of its size
    /// can hold of a scan.
    ScanFile(std::filesystem::path, double max_pixels);

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// The header alone: size, bands, format, metadata, before orientation.
    [[nodiscard]] const vips::VImage& header() const { return header_; }
    /// Size after orientation.
    [[nodiscard]] int width() const { return orientation_ < 5 ? header_.width() : header_.height(); }
    [[nodiscard]] int height() const { return orientation_ < 5 ? header_.height() : header_.width(); }
    [[nodiscard]] int pages() const;
    [[nodiscard]] std::vector<unsigned char> icc() const;
    [[nodiscard]] std::optional<double> pixels_per_mm() const;
    /// The pixels as they lie on disk; lazily read, from top to bottom.
    [[nodiscard]] vips::VImage as_stored() const;
    /// The pixels, turned as the orientation tag says; lazily read, from top to bottom.
    [[nodiscard]] vips::VImage upright() const;

  private:
    [[nodiscard]] vips::VImage load(VipsAccess) const;
    [[nodiscard]] vips::VImage loaded_again(VipsAccess) const;

    std::filesystem::path path_;
    std::string loader_;  // of libvips
    vips::VImage header_;
    int orientation_ = 1;
};

}  // namespace fogproof
