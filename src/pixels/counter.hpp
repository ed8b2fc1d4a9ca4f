// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One worker's counts of entries (code_source.hpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"

namespace fogproof::pixels {

/// Narrow bins, that stay in the cache of a processor, emptied before they can run over.
template <class Code>
class Counter {
  public:
    explicit Counter(std::size_t entries) : bins_(entries) {}

    void count(const Code* codes, std::size_t pixels, std::size_t first_entry, Histogram& total) {
        if (counted_ + pixels > kMost) add_to(total);
        counted_ += pixels;
        std::uint32_t* const bins = bins_.data() + first_entry;
        for (std::size_t x = 0; x < pixels; ++x) ++bins[codes[x]];
    }
    void add_to(Histogram& total) {
        for (std::size_t entry = 0; entry < bins_.size(); ++entry) total[entry] += bins_[entry];
        bins_.assign(bins_.size(), 0);
        counted_ = 0;
    }

  private:
    static constexpr std::size_t kMost = 0xffff'ffffu;
    std::vector<std::uint32_t> bins_;
    std::size_t counted_ = 0;
};

}  // namespace fogproof::pixels
