// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan of the size of the strips' scans under a mask that tells two places apart.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "pixels/code_source.hpp"
#include "support/rooms.hpp"
#include "support/strips.hpp"

namespace fogproof::tests {

// Two places: a disc and what lies around it, and within it a column that belongs to the surround again.
inline std::size_t place_at(int x, int y) {
    const int across = x - kWidth / 2, down = y - kHeight / 3;
    return across * across + down * down < kHeight * kHeight / 9 && x != kWidth / 2 ? 1 : 0;
}

class Masked : public CodeSource {
  public:
    explicit Masked(std::shared_ptr<const CodeSource> scan) : scan_(std::move(scan)) {}
    [[nodiscard]] std::string name() const override { return scan_->name(); }
    [[nodiscard]] int width() const override { return scan_->width(); }
    [[nodiscard]] int height() const override { return scan_->height(); }
    [[nodiscard]] std::size_t codes() const override { return scan_->codes(); }
    [[nodiscard]] std::size_t places() const override { return 2; }
    [[nodiscard]] std::vector<PlaceRun> runs(int line) const override {
        std::vector<PlaceRun> all;
        for (int x = 0; x < width(); ++x)
            if (!all.empty() && all.back().place == place_at(x, line))
                all.back().end = x + 1;
            else
                all.push_back({x + 1, place_at(x, line)});
        return all;
    }
    [[nodiscard]] std::size_t line_bytes() const override { return scan_->line_bytes(); }
    [[nodiscard]] int lines_together() const override { return scan_->lines_together(); }
    [[nodiscard]] int lines_above() const override { return scan_->lines_above(); }
    [[nodiscard]] bool in_order() const override { return scan_->in_order(); }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override { return scan_->reader(); }

  private:
    std::shared_ptr<const CodeSource> scan_;
};

/// All codes of a scan of 16 bits.
inline std::vector<std::uint16_t> codes_of(const CodeSource& source) {
    std::vector<std::uint16_t> codes;
    const auto reader = source.reader();
    const CodeBand band = reader->lines(0, source.height());
    for (int y = 0; y < source.height(); ++y) {
        const auto* const line = band.line<std::uint16_t>(y);
        codes.insert(codes.end(), line, line + source.width());
    }
    return codes;
}

}  // namespace fogproof::tests
