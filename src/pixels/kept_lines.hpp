// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A coded picture's lines, decoded once for all passes and workers.
#pragma once

#include <cstddef>
#include <memory>
#include <mutex>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

class KeptLines {
  public:
    /// Takes memory only for what is filled. Throws std::bad_alloc.
    KeptLines(std::size_t bytes, std::size_t rows)
        : bytes_(std::make_unique_for_overwrite<std::byte[]>(bytes)),
          filled_(std::make_unique<std::once_flag[]>(rows)) {}

    /// Has a row of strips or tiles filled by whoever asks first; the others wait. What filling throws leaves
    /// it to the next who asks.
    template <class Fill>
    void fill_once(std::size_t row, const Fill& fill) {
        std::call_once(filled_[row], fill);
    }
    [[nodiscard]] std::byte* bytes() { return bytes_.get(); }

  private:
    std::unique_ptr<std::byte[]> bytes_;
    std::unique_ptr<std::once_flag[]> filled_;
};

}  // namespace fogproof::pixels
