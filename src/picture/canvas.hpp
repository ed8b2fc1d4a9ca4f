// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A sheet to lay prints and words on, in the code values of one output profile.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/profile.hpp"
#include "system/large_pages.hpp"

namespace vips {
class VImage;
}

namespace fogproof::picture {

struct Box {
    int left = 0, top = 0, width = 0, height = 0;
};

/// How a line of words is set.
struct Type {
    int pixels = 14;  ///< height of the type
    bool bold = false;
};

/// Colours are given as 16-bit codes, whatever the canvas keeps of them.
class Canvas {
  public:
    Canvas(int width, int height, int channels, int bits, std::span<const std::uint16_t> background);

    void fill(Box, std::span<const std::uint16_t> colour);
    /// Pixels row by row, channels interleaved.
    void paste(Box, std::span<const std::uint16_t> pixels);
    /// Words within a box, wrapped at its width; returns the height they took. Throws
    /// Error(Fault::unavailable) when the typeface is not installed.
    int write(Box, const std::string& words, Type, std::span<const std::uint16_t> colour);
    /// The height that words would take.
    [[nodiscard]] static int height_of(const std::string& words, int width, Type);
    /// The width of one unwrapped line.
    [[nodiscard]] static int width_of(const std::string& words, Type);

    /// The finished sheet. It shows this canvas, which has to outlive it.
    [[nodiscard]] vips::VImage picture() const;

  private:
    int width_, height_, channels_;
    template <class Code>
    using Pixels = std::vector<Code, LargePages<Code>>;
    std::variant<Pixels<std::uint8_t>, Pixels<std::uint16_t>> pixels_;
};

}  // namespace fogproof::picture
