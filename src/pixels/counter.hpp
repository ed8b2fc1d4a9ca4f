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

    void count(const Code* codes, std::size_t pixels, std::size_t first_entry) {
        if (counted_ + pixels > kMost) {
            full_.resize(bins_.size());
            empty_into(full_);
        }
        counted_ += pixels;
        std::uint32_t* const bins = bins_.data() + first_entry;
        for (std::size_t x = 0; x < pixels; ++x) ++bins[codes[x]];
    }
    /// Adds what was counted since the last time.
    void add_to(Histogram& total) {
        empty_into(total);
        for (std::size_t entry = 0; entry < full_.size(); ++entry) total[entry] += full_[entry];
        full_.clear();
    }

  private:
    void empty_into(Histogram& total) {
        for (std::size_t entry = 0; entry < bins_.size(); ++entry) total[entry] += bins_[entry];
        bins_.assign(bins_.size(), 0);
        counted_ = 0;
    }

    static constexpr std::size_t kMost = 0xffff'ffffu;
    std::vector<std::uint32_t> bins_;
    std::size_t counted_ = 0;
    Histogram full_;  // of bins that were emptied on the way; none as a rule
};

}  // namespace fogproof::pixels
