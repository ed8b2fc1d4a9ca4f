// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips of a TIFF made small: horizontal differences, then deflate.
#pragma once

#include <libdeflate.h>

#include <cstddef>
#include <memory>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/tiff_directory.hpp"

namespace fogproof::pixels {

/// Not to be shared: every worker has its own.
class Deflater {
  public:
    Deflater();
    /// The lines of one strip; they are lost.
    [[nodiscard]] std::vector<std::byte> deflated(std::byte* lines, int count, const TiffPicture&);

  private:
    struct Free {
        void operator()(libdeflate_compressor* held) const { libdeflate_free_compressor(held); }
    };
    std::unique_ptr<libdeflate_compressor, Free> compressor_;
    std::vector<std::byte> packed_;  // room for the worst case
};

}  // namespace fogproof::pixels
