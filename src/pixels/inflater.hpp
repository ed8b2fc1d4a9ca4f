// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Deflated strips and tiles undone by libdeflate, and their horizontal differences in registers: libtiff goes
// through memory for each, and takes as long for them as for a third of the deflating.
#pragma once

#include <libdeflate.h>

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/tiff_handle.hpp"
#include "pixels/tiff_layout.hpp"

namespace fogproof::pixels {

/// Not to be shared: every worker has its own.
class Inflater {
  public:
    /// Whether a file is one for us: deflated, samples in this machine's byte order.
    [[nodiscard]] static bool takes(const TiffHandle&, const TiffScan::Layout&);

    Inflater(const TiffHandle&, const TiffScan::Layout&);
    /// All lines of one strip or tile of `line_bytes` each. False, with anything in `to`, for a unit that is
    /// damaged or odd; libtiff then knows what to make of it.
    [[nodiscard]] bool unit(const TiffHandle&, std::uint32_t number, std::byte* to, std::size_t bytes,
                            std::size_t line_bytes);

  private:
    struct Free {
        void operator()(libdeflate_decompressor* held) const { libdeflate_free_decompressor(held); }
    };
    const TiffScan::Layout& layout_;
    bool has_differences_;
    std::unique_ptr<libdeflate_decompressor, Free> decompressor_;
    std::vector<std::byte> packed_;
};

}  // namespace fogproof::pixels
