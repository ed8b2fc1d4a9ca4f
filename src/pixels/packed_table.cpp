// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/packed_table.hpp"

#include <cstring>

namespace fogproof::pixels {
namespace {

template <class Entry, class Sample>
std::vector<Entry> packed(std::span<const Sample> samples, int channels) {
    const std::size_t bytes = std::size_t(channels) * sizeof(Sample);
    std::vector<Entry> entries(samples.size() / std::size_t(channels));
    for (std::size_t code = 0; code < entries.size(); ++code)
        std::memcpy(&entries[code], samples.data() + code * std::size_t(channels), bytes);
    return entries;
}

// Each store may reach over the next pixel, which is stored after it. Four codes are read before the first of
// their pixels is stored: for all that the compiler knows, a store may change the codes that are yet to be
// read.
template <std::size_t bytes, class Entry, class Code>
EntrySums look_up(const Entry* entries, const Code* codes, std::size_t pixels, std::byte* to) {
    EntrySums sums{pixels, 0, 0};
    const auto draw = [&](std::size_t x, std::uint64_t code) {
        std::memcpy(to + x * bytes, entries + code, sizeof(Entry));
        sums.entries += code;
        sums.squares += code * code;
    };
    std::size_t x = 0;
    for (; x + 4 <= pixels; x += 4) {
        const std::uint64_t first = codes[x], second = codes[x + 1], third = codes[x + 2],
                            fourth = codes[x + 3];
        draw(x, first);
        draw(x + 1, second);
        draw(x + 2, third);
        draw(x + 3, fourth);
    }
    for (; x < pixels; ++x) draw(x, codes[x]);
    return sums;
}

template <class Code>
EntrySums look_up_any(const PackedTable& table, const std::vector<std::uint64_t>& wide,
                      const std::vector<std::uint32_t>& narrow, const Code* codes, std::size_t pixels,
                      std::size_t first_entry, std::byte* to) {
    switch (table.pixel_bytes()) {
        case 6:
            return look_up<6>(wide.data() + first_entry, codes, pixels, to).moved_by(first_entry);
        case 3:
            return look_up<3>(narrow.data() + first_entry, codes, pixels, to).moved_by(first_entry);
        case 2:
            return look_up<2>(wide.data() + first_entry, codes, pixels, to).moved_by(first_entry);
        default:
            return look_up<1>(narrow.data() + first_entry, codes, pixels, to).moved_by(first_entry);
    }
}

}  // namespace

PackedTable::PackedTable(std::span<const std::uint16_t> samples, int channels)
    : channels_(channels), bits_(16), wide_(packed<std::uint64_t>(samples, channels)) {}

PackedTable::PackedTable(std::span<const std::uint8_t> samples, int channels)
    : channels_(channels), bits_(8), narrow_(packed<std::uint32_t>(samples, channels)) {}

EntrySums PackedTable::map(const std::uint16_t* codes, std::size_t pixels, std::size_t first_entry,
                           std::byte* to) const {
    return look_up_any(*this, wide_, narrow_, codes, pixels, first_entry, to);
}

EntrySums PackedTable::map(const std::uint8_t* codes, std::size_t pixels, std::size_t first_entry,
                           std::byte* to) const {
    return look_up_any(*this, wide_, narrow_, codes, pixels, first_entry, to);
}

}  // namespace fogproof::pixels
