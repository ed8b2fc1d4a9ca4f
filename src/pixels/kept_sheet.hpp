// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// All codes of a scan that is being turned, or was, in a file without a name.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>

#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::pixels {

/// The file lies on the disk, or in memory where the disk has little room.
class KeptSheet {
  public:
    /// `name` is that of the scan, for faults. Throws Error(Fault::unavailable) where there is no room.
    KeptSheet(std::string name, int width, int height, std::size_t code_bytes);

    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] int height() const { return height_; }
    [[nodiscard]] std::size_t code_bytes() const { return code_bytes_; }
    [[nodiscard]] std::uint64_t bytes() const { return std::uint64_t(height_) * line_bytes(); }
    /// For several workers at once. Throws Error(Fault::io) where there is no room any more.
    void write(int top, int count, const CodeBand&) const;
    /// Codes of a line from `left` on. Throws Error(Fault::io).
    void read(int line, int left, int count, std::byte* to) const;
    /// The codes as they lie in memory, once all are written. Nobody can shorten a file that has no name.
    /// Throws Error(Fault::unavailable).
    [[nodiscard]] std::shared_ptr<void> mapped() const;

  private:
    [[nodiscard]] std::uint64_t line_bytes() const { return std::uint64_t(width_) * code_bytes_; }

    std::string name_;
    int width_, height_;
    std::size_t code_bytes_;
    FileDescriptor file_;
};

}  // namespace fogproof::pixels
