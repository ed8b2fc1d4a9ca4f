// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One small print on its own unexposed border, beside the slip that was only fixed: the cell that proof grids
// and proof pages are made of.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/render/grid.hpp"
#include "fogproof/render/small_negative.hpp"
#include "render/canvas.hpp"

namespace fogproof {

// Colours to 16-bit code values of the profile, white paper of the grid's first cell counting for relative
// rendering. For a picture of 8 bits they are the nearest 8-bit colours, so that nothing is left to round.
class Ink {
  public:
    Ink(const OutputProfile& profile, Rendering rendering, const Lab& white, int bits)
        : profile_(profile), rendering_(rendering), white_(white), bits_(bits) {}
    [[nodiscard]] int bits() const { return bits_; }
    [[nodiscard]] std::vector<std::uint16_t> codes(std::span<const Lab> colours) const {
        return coded(colours, rendering_);
    }
    [[nodiscard]] std::vector<std::uint16_t> paper(const Lab& colour) const { return codes({&colour, 1}); }
    // Surround and words are no paper: they stay what they are.
    [[nodiscard]] std::vector<std::uint16_t> plain(const Lab& colour) const {
        return coded({&colour, 1}, Rendering::absolute);
    }

  private:
    [[nodiscard]] std::vector<std::uint16_t> coded(std::span<const Lab> colours, Rendering rendering) const {
        if (bits_ == 16) return profile_.encode(colours, rendering, white_);
        const auto narrow = profile_.encode_8bit(colours, rendering, white_);
        std::vector<std::uint16_t> codes(narrow.begin(), narrow.end());
        for (std::uint16_t& code : codes) code = std::uint16_t(code * 257);
        return codes;
    }

    const OutputProfile& profile_;
    Rendering rendering_;
    Lab white_;
    int bits_;
};

class PrintPainter {
  public:
    PrintPainter(const SmallNegative&, Ink, int channels);

    /// Pixels of a print with its border, and with the slip at its right.
    [[nodiscard]] int print_width() const { return picture_width_ + 2 * border_; }
    [[nodiscard]] int print_height() const { return picture_height_ + 2 * border_; }
    [[nodiscard]] int width() const { return print_width() + slip_; }

    void paint(Canvas&, int left, int top, const GridCell&) const;

  private:
    void paint_panel(Canvas&, Box strip, Box picture, const GridPanel&) const;
    [[nodiscard]] std::vector<std::uint16_t> level_codes(const GridPanel&) const;

    Ink ink_;
    int channels_, picture_width_, picture_height_, border_, slip_;
    // The picture's densities as whole steps, so that one table serves all its pixels.
    std::vector<NegativeDensity> scale_;
    std::vector<std::uint32_t> level_of_pixel_;
};

}  // namespace fogproof
