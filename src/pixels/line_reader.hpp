// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One worker's way to the lines of a TIFF.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/inflater.hpp"
#include "pixels/tiff_handle.hpp"
#include "pixels/tiff_scan.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::pixels {

/// Not to be shared: every worker has its own.
class LineReader {
  public:
    explicit LineReader(TiffScan);
    /// The samples of whole lines from `top` on, in this machine's byte order, 0 for black; valid until the
    /// next call. Throws Error(Fault::data) for what cannot be read.
    [[nodiscard]] const std::byte* lines(int top, int count);

  private:
    void read_plain(int top, int count);
    void decode(int top, int count);
    /// All lines of a row of strips or tiles.
    void take_row(int row, std::byte* to, std::size_t bytes);
    void decode_row(int row, std::byte* to, std::size_t bytes);
    void decode_unit(std::uint32_t unit, std::byte* to, std::size_t bytes, std::size_t line_bytes);
    void settle(std::byte* first, std::size_t bytes) const;
    [[noreturn]] void refuse(const std::string& why) const;

    TiffScan scan_;
    const TiffScan::Layout& layout_;
    FileDescriptor plain_;
    std::optional<TiffHandle> coded_;
    std::optional<Inflater> inflater_;
    std::vector<std::byte> buffer_, tile_;
    int first_ = 0, end_ = 0;  // the lines in the buffer
};

}  // namespace fogproof::pixels
