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
#include "render/canvas.hpp"
#include "render/small_negative.hpp"

namespace fogproof {

// Colours to code values of the profile, white paper of the grid's first cell counting for relative
// rendering.
class Ink {
  public:
    Ink(const OutputProfile& profile, Rendering rendering, const Lab& white)
        : profile_(profile), rendering_(rendering), white_(white) {}
    [[nodiscard]] std::vector<std::uint16_t> codes(std::span<const Lab> colours) const {
        return profile_.encode(colours, rendering_, white_);
    }
    [[nodiscard]] std::vector<std::uint16_t> paper(const Lab& colour) const { return codes({&colour, 1}); }
    // Surround and words are no paper: they stay what they are.
    [[nodiscard]] std::vector<std::uint16_t> plain(const Lab& colour) const {
        return profile_.encode({&colour, 1}, Rendering::absolute, white_);
    }

  private:
    const OutputProfile& profile_;
    Rendering rendering_;
    Lab white_;
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
