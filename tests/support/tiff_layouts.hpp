// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// TIFFs of every layout, written by libtiff, and ways to damage the end of their last strip alone.
#pragma once

#include <tiffio.h>

#include <cstdint>
#include <filesystem>
#include <functional>
#include <ostream>
#include <string>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {

struct TiffForm {
    int bits = 16;
    std::uint16_t coding = COMPRESSION_NONE;
    int predictor = 1;
    bool tiled = false;
    int unit = 16;  ///< lines of a strip, or half the side of a tile
    bool big_endian = false, white_low = false, big_tiff = false;
    int samples = 1;

    friend void PrintTo(const TiffForm& form, std::ostream* out) {
        *out << form.bits << " bits, coding " << form.coding << ", predictor " << form.predictor
             << (form.tiled ? ", tiles of " : ", strips of ") << form.unit
             << (form.big_endian ? ", big-endian" : "") << (form.white_low ? ", white is zero" : "")
             << (form.big_tiff ? ", BigTIFF" : "") << ", " << form.samples << " samples";
    }
};

/// The sample of column, line and place within the pixel, as light: 0 is black whatever the file calls it.
using SampleLaw = std::function<unsigned(int x, int y, int sample)>;

void write_tiff(const std::filesystem::path& path, const TiffForm& form, int width, int height,
                const SampleLaw& law);

/// A file whose last strip or tile lies at its very end, so that it can be cut without harm to the rest.
class LastStripAtEnd {
  public:
    explicit LastStripAtEnd(const std::filesystem::path& path);
    [[nodiscard]] std::size_t length() const { return length_; }  ///< of the last strip, in bytes
    void save_whole(const std::filesystem::path& path) const { save(path, bytes_); }
    void save_short_of(std::size_t bytes, const std::filesystem::path& path) const;
    /// The second half of the last strip all ones.
    void save_spoilt(const std::filesystem::path& path) const;

  private:
    struct Place {
        std::size_t place = 0, width = 4;
    };
    [[nodiscard]] std::uint64_t number(std::size_t place, std::size_t width) const;
    [[nodiscard]] Place last_of(std::size_t entry) const;
    static void save(const std::filesystem::path& path, const std::string& bytes);

    std::string bytes_;
    bool big_endian_ = false, big_ = false;
    Place offsets_, counts_;
    std::size_t length_ = 0;
};

}  // namespace fogproof::tests
