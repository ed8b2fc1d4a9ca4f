// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/kept_lines.hpp"

#include "system/scratch_file.hpp"

namespace fogproof::pixels {

void KeptLines::keep(std::size_t row, const std::byte* from, std::size_t bytes) {
    std::call_once(opened_, [this] { file_ = scratch_file(bytes_); });
    if (!file_ || !has_room_) return;
    // Workers that decode one row at the same time write the same.
    if (file_->write(from, bytes, std::uint64_t(row) * row_bytes_))
        has_room_ = false;
    else
        is_kept_[row] = true;
}

bool KeptLines::read(std::size_t row, std::byte* to, std::size_t bytes) const {
    return is_kept_[row] && !file_->read(to, bytes, std::uint64_t(row) * row_bytes_);
}

}  // namespace fogproof::pixels
