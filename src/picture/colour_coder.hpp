// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Colours to code values of an output profile, in the depth of the picture they are for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/profile.hpp"
#include "pixels/packed_table.hpp"

namespace fogproof::picture {

/// For a picture of 8 bits the nearest 8-bit colours are found, so that nothing is left to round.
class ColourCoder {
  public:
    /// The paper's white counts for relative rendering.
    ColourCoder(const OutputProfile& profile, Rendering rendering, const Lab& paper_white, int bits)
        : profile_(profile), rendering_(rendering), white_(paper_white), bits_(bits) {}

    /// The same for a picture of 16 bits.
    [[nodiscard]] ColourCoder in_16_bits() const { return {profile_, rendering_, white_, 16}; }
    [[nodiscard]] int bits() const { return bits_; }
    [[nodiscard]] int channels() const { return profile_.channels(); }
    /// One entry for each colour.
    [[nodiscard]] PackedTable table(std::span<const Lab>) const;
    /// Samples in the depth of the picture, as they lie in memory.
    [[nodiscard]] std::vector<std::byte> bytes(std::span<const Lab>) const;
    /// 16-bit codes, for a canvas; 8 bits of them count where the picture has 8.
    [[nodiscard]] std::vector<std::uint16_t> codes(std::span<const Lab>) const;
    [[nodiscard]] std::vector<std::uint16_t> paper(const Lab& colour) const { return codes({&colour, 1}); }
    /// Surround and words are no paper: they stay what they are.
    [[nodiscard]] std::vector<std::uint16_t> plain(const Lab&) const;

  private:
    const OutputProfile& profile_;
    Rendering rendering_;
    Lab white_;
    int bits_;
};

}  // namespace fogproof::picture
