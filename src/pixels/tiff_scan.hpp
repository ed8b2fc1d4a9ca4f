// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A TIFF that can be read by several workers at once, strip by strip or tile by tile.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// What the header says.
struct TiffFacts {
    int width = 0, height = 0;
    int samples = 1;  ///< a pixel, as far as they lie together
    int bits = 16;    ///< a sample, 8 or 16, unsigned
    bool is_rgb = false;
    std::vector<std::uint8_t> icc;
};

/// A file whose header has been read and whose layout is one of the common ones. Immutable; cheap to copy.
class TiffScan {
  public:
    /// Nothing for whatever is not taken here: other files, damaged headers, several pages, other samples
    /// than 8 or 16 unsigned bits, other codings than none, LZW, deflate and PackBits, strips or rows of
    /// tiles too large to hold one for each worker. That is for a general reader to take or to refuse.
    /// Of a coded picture that takes at most so many bytes, the lines are kept for the next pass, on the
    /// disk.
    static std::optional<TiffScan> open(const std::filesystem::path&, std::uint64_t most_kept = 0);

    [[nodiscard]] const std::filesystem::path& path() const;
    [[nodiscard]] const TiffFacts& facts() const;
    /// Lines that must be decoded together; 1 where every line can be had by itself.
    [[nodiscard]] int lines_together() const;
    /// Throws Error(Fault::data) when the path no longer leads to the file that was opened, as it was then.
    void require_unchanged() const;

    struct Layout;
    [[nodiscard]] const Layout& layout() const { return *layout_; }

  private:
    std::shared_ptr<const Layout> layout_;
};

}  // namespace fogproof::pixels
