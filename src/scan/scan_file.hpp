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

#include "fogproof/rooms.hpp"
#include "pixels/tiff_scan.hpp"
#include "scan/file_words.hpp"

namespace fogproof::scan {

/// An image file whose header has been read and found possible. Its pixels are read anew at every `upright`.
class ScanFile {
  public:
    /// Throws Error(no_input) when path is no readable regular file, Error(data) when its content is no image
    /// (TIFF, PNG or JPEG), one with more than max_pixels, or one that promises more than a file of its size
    /// can hold of a scan. Read by libvips where that is asked for, whatever it is.
    ScanFile(std::filesystem::path, double max_pixels, ReadBy = ReadBy::lines);

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// The file for the reader of lines, if it takes it; libvips has then not been asked.
    [[nodiscard]] const std::optional<TiffScan>& tiff() const { return tiff_; }
    /// What the samples of a pixel are, how many, and what they stand for.
    [[nodiscard]] VipsBandFormat format() const;
    [[nodiscard]] int bytes_of_sample() const;
    [[nodiscard]] int bands() const;
    [[nodiscard]] VipsInterpretation interpretation() const;
    /// Size after orientation.
    [[nodiscard]] int width() const { return orientation_ < 5 ? stored_width() : stored_height(); }
    [[nodiscard]] int height() const { return orientation_ < 5 ? stored_height() : stored_width(); }
    /// True when the upright picture is the stored one from right to left.
    [[nodiscard]] bool is_mirrored() const { return orientation_ == 2; }
    [[nodiscard]] int pages() const;
    /// Whether its pixels have to be in memory, or on disk, all at once before the first line is known.
    [[nodiscard]] bool is_held_whole() const;
    [[nodiscard]] std::vector<unsigned char> icc() const;
    /// What else it says of itself.
    [[nodiscard]] const FileWords& words() const { return words_; }
    [[nodiscard]] std::optional<double> pixels_per_mm() const;
    /// The pixels as they lie on disk; lazily read, from top to bottom.
    [[nodiscard]] vips::VImage as_stored() const;
    /// The pixels, turned as the orientation tag says; lazily read, from top to bottom.
    [[nodiscard]] vips::VImage upright() const;

  private:
    [[nodiscard]] vips::VImage load(VipsAccess) const;
    [[nodiscard]] vips::VImage loaded_again(VipsAccess) const;
    [[nodiscard]] int stored_width() const;
    [[nodiscard]] int stored_height() const;
    [[nodiscard]] bool is_interlaced() const;
    void read_header();
    void require_sound(double max_pixels) const;

    std::filesystem::path path_;
    std::string loader_;  // of libvips
    std::optional<TiffScan> tiff_;
    std::optional<vips::VImage> header_;  // of what the engine does not take
    FileWords words_;
    int orientation_ = 1;
};

}  // namespace fogproof::scan
