// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One small print on its own unexposed border, beside the slip that was only fixed: the cell that proof grids
// and proof pages are made of.
#pragma once

#include <cstdint>
#include <vector>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "picture/canvas.hpp"
#include "picture/colour_coder.hpp"
#include "picture/grid.hpp"
#include "picture/print_measures.hpp"
#include "pixels/local_painter.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::picture {

class PrintPainter {
  public:
    PrintPainter(const SmallNegative&, ColourCoder, LocalMasks = {});

    [[nodiscard]] const PrintMeasures& measures() const { return measures_; }

    void paint(Canvas&, int left, int top, const GridCell&) const;

  private:
    void paint_border(Canvas&, Box strip, Box picture, const Panel&) const;
    void paint_panel(Canvas&, Box strip, Box picture, const Panel&) const;
    [[nodiscard]] std::vector<std::uint16_t> level_codes(const Panel&) const;
    [[nodiscard]] std::vector<std::uint16_t> wide_codes(std::span<const std::byte>) const;
    [[nodiscard]] PackedTable packed(std::span<const std::uint16_t> codes) const;
    [[nodiscard]] LocalPainter local_painter(const Panel&, std::vector<std::uint16_t> codes) const;

    ColourCoder ink_;
    PrintMeasures measures_;
    // The picture's densities as whole steps, so that one table serves all its pixels.
    std::vector<NegativeDensity> scale_;
    std::vector<std::uint32_t> level_of_pixel_;
    LocalMasks local_;
    FrameInPrint frame_;  // in the small picture
};

}  // namespace fogproof::picture
