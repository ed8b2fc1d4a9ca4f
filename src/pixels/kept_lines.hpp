// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A coded picture's rows of strips or tiles, decoded once for all passes and workers. They lie in a scratch
// file: the system holds that in memory while it has some to spare.
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>

#include "fogproof/rooms.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::pixels {

class KeptLines {
  public:
    /// Rows of `row_bytes`, of which the last may be shorter, of `bytes` in all.
    KeptLines(std::uint64_t bytes, std::size_t rows, std::size_t row_bytes)
        : bytes_(bytes), row_bytes_(row_bytes), is_kept_(std::make_unique<std::atomic<bool>[]>(rows)) {}

    /// Keeps a row; does nothing where there is no room for it.
    void keep(std::size_t row, const std::byte* from, std::size_t bytes);
    /// False, with anything in `to`, when the row is not kept.
    [[nodiscard]] bool read(std::size_t row, std::byte* to, std::size_t bytes) const;

  private:
    std::uint64_t bytes_;
    std::size_t row_bytes_;
    std::once_flag opened_;
    std::optional<FileDescriptor> file_;
    std::atomic<bool> has_room_ = true;
    std::unique_ptr<std::atomic<bool>[]> is_kept_;
};

}  // namespace fogproof::pixels
