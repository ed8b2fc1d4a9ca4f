// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The unexposed paper around a picture: of one colour, or as its fog at each place has it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"

namespace fogproof::pixels {

/// Pixels on each side of a picture.
struct BorderWidths {
    int left = 0, top = 0, right = 0, bottom = 0;
    [[nodiscard]] int across() const { return left + right; }
    [[nodiscard]] int down() const { return top + bottom; }
    [[nodiscard]] bool is_none() const { return across() == 0 && down() == 0; }
    [[nodiscard]] static BorderWidths even(int pixels) { return {pixels, pixels, pixels, pixels}; }
};

class PrintBorder {
  public:
    PrintBorder() = default;
    /// The samples of one pixel as they lie in memory.
    PrintBorder(const BorderWidths&, std::vector<std::byte> pixel);
    /// Fog over picture and border together, and the colours of its levels from nil to full in equal steps,
    /// in codes of 16 bits, for a picture of 8 or 16.
    PrintBorder(const BorderWidths&, std::shared_ptr<const LevelGrid> fog,
                std::span<const std::uint16_t> codes_of_levels, int channels, int bits);

    [[nodiscard]] const BorderWidths& widths() const { return widths_; }
    [[nodiscard]] std::size_t pixel_bytes() const { return pixel_.size(); }
    /// Pixels [begin, end) of a line of the whole, which is so large.
    void draw(int line, int begin, int end, int width, int height, std::byte* to) const;

  private:
    BorderWidths widths_;
    std::vector<std::byte> pixel_;
    std::shared_ptr<const LevelGrid> fog_;
    std::vector<float> codes_;
    int channels_ = 1, bits_ = 16;
};

}  // namespace fogproof::pixels
