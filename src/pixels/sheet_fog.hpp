// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Fog that is heavier at the edges of a sheet, over what is printed on it: levels as those of a mask, nil
// where a place is fogged as the middle is, full where it is fogged as the very edge.
#pragma once

#include <optional>

#include "choose/frame_on_sheet.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"

namespace fogproof::pixels {

/// What comes in from one open edge by diffusion falls as erfc of the distance (Crank, The Mathematics of
/// Diffusion, half-space at a constant surface concentration; from memory); from several edges what each
/// leaves untouched multiplies (the product solution; from memory). That fog follows it is judgement; that
/// old packs fog from the edges in is common practice, no source. (What fades prints from their edges in
/// reaches from a few millimetres to two centimetres: Hendriks and Palmer, Topics in Photographic
/// Preservation 5, 1993.) Distances in millimetres.
[[nodiscard]] double edge_level(double reach_mm, double left, double top, double right, double bottom);

/// A part of the print in millimetres of its sheet.
struct SheetPart {
    double left = 0, top = 0, width = 0, height = 0;
};

class SheetFog {
  public:
    /// `map` over one sheet with its width across, where the pack has a map in place of a reach.
    SheetFog(const EdgeFog&, std::optional<LevelGrid> map, const FrameOnSheet&);

    [[nodiscard]] const EdgeFog& edge() const { return edge_; }
    [[nodiscard]] const FrameOnSheet& frame() const { return frame_; }
    /// The same with the sheet laid in another way.
    [[nodiscard]] SheetFog laid(const FrameOnSheet& frame) const { return {edge_, map_, frame}; }
    /// The same with another fog, on the same map if it is by one.
    [[nodiscard]] SheetFog with(const EdgeFog& edge) const { return {edge, map_, frame_}; }
    /// At a place in millimetres of the sheet as the print is looked at.
    [[nodiscard]] double level(double x, double y) const;
    /// Over a part of it, of a size that suits.
    [[nodiscard]] LevelGrid over(const SheetPart&, GridSize) const;

  private:
    EdgeFog edge_;
    std::optional<LevelGrid> map_;
    FrameOnSheet frame_;
};

}  // namespace fogproof::pixels
