// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What holds the pixels that are drawn against those that were counted, and costs drawing nothing.
#pragma once

#include <cstddef>
#include <cstdint>

#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"

namespace fogproof::pixels {

/// Sums over entries (code_source.hpp). They wrap around, as unsigned numbers do.
struct EntrySums {
    std::uint64_t pixels = 0, entries = 0, squares = 0;

    bool operator==(const EntrySums&) const = default;
    EntrySums& operator+=(const EntrySums& other) {
        pixels += other.pixels;
        entries += other.entries;
        squares += other.squares;
        return *this;
    }
    /// Of the same pixels, every entry higher by so much.
    [[nodiscard]] EntrySums moved_by(std::uint64_t more) const {
        return {pixels, entries + pixels * more, squares + 2 * more * entries + pixels * more * more};
    }
};

[[nodiscard]] inline EntrySums sums_of(const Histogram& counts) {
    EntrySums sums;
    for (std::size_t entry = 0; entry < counts.size(); ++entry)
        sums += EntrySums{counts[entry], 0, 0}.moved_by(entry);
    return sums;
}

}  // namespace fogproof::pixels
