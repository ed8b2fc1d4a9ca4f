// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Colours as code values of an output profile, in the depth of the picture they are for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>
#include <vips/vips8>

#include "fogproof/render/profile.hpp"
#include "fogproof/strips/packed_table.hpp"

namespace fogproof {

class CodedColours {
  public:
    CodedColours(std::span<const Lab>, const OutputProfile&, int bits, Rendering, const Lab& paper_white);

    /// As an image, row by row; libvips looks pixels up in one that is a single row.
    [[nodiscard]] vips::VImage image(int width, int height) const;
    [[nodiscard]] PackedTable table() const;
    [[nodiscard]] std::vector<std::byte> bytes() const;

  private:
    int channels_;
    std::vector<std::uint16_t> wide_;   // at 16 bits
    std::vector<std::uint8_t> narrow_;  // at 8
};

}  // namespace fogproof
