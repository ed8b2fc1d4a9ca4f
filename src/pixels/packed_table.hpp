// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The colours of all entries (code_source.hpp), packed so that a pixel is one load and one store.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/entry_sums.hpp"

namespace fogproof::pixels {

class PackedTable {
  public:
    /// `channels` (1 or 3) samples for each of 256 or 65536 codes of every place.
    PackedTable(std::span<const std::uint16_t> samples, int channels);
    PackedTable(std::span<const std::uint8_t> samples, int channels);

    [[nodiscard]] int channels() const { return channels_; }
    [[nodiscard]] int bits() const { return bits_; }
    [[nodiscard]] std::size_t entries() const { return bits_ == 16 ? wide_.size() : narrow_.size(); }
    [[nodiscard]] std::size_t pixel_bytes() const { return std::size_t(channels_ * bits_ / 8); }

    /// Bytes past the last pixel that `map` may write over.
    static constexpr std::size_t kSlack = 8;
    /// Draws pixels of one place, and returns the sums of what it drew.
    EntrySums map(const std::uint16_t* codes, std::size_t pixels, std::size_t first_entry,
                  std::byte* to) const;
    EntrySums map(const std::uint8_t* codes, std::size_t pixels, std::size_t first_entry,
                  std::byte* to) const;

  private:
    int channels_, bits_;
    std::vector<std::uint64_t> wide_;    // of 16-bit samples
    std::vector<std::uint32_t> narrow_;  // of 8-bit samples
};

}  // namespace fogproof::pixels
