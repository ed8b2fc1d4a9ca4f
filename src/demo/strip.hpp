// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A piece of perforated 35 mm film in a scanner's holder. Perforations after ISO 1007 (from memory: 2.8
// x 1.98 mm, corners rounded, pitch 4.75 mm, 2 mm from the edge of the film), a frame of 36 x 24 mm in the
// middle.
#pragma once

#include <utility>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

inline constexpr double kFrameWide = 36, kFrameTall = 24;
inline constexpr double kEdgeBeside = 1.8;  ///< clear film left and right of the frame
inline constexpr double kEdgeAbove = 0.7;   ///< clear film between frame and perforations, and beyond them
inline constexpr double kHoleTall = 2.8, kHoleWide = 1.98, kHolePitch = 4.75;
inline constexpr double kHolder = 1.2;  ///< what the scan shows of the opaque holder
inline constexpr double kFrameLeft = kHolder + kEdgeBeside;
inline constexpr double kFrameTop = kHolder + 2 * kEdgeAbove + kHoleTall;
inline constexpr double kScanWide = kFrameWide + 2 * kFrameLeft, kScanTall = kFrameTall + 2 * kFrameTop;

/// Share of a pixel in the middle of a row at y that lies in a perforation, in scan millimetres.
[[nodiscard]] double in_perforation(double x, double y, double pixel);
/// Share of light that the holder lets past.
[[nodiscard]] double past_holder(double x, double y);

/// Specks and fibres that lie on the film.
class Dust {
  public:
    Dust();
    /// The part that may touch a row.
    [[nodiscard]] Dust near_row(double y) const;
    /// Share of light that gets past.
    [[nodiscard]] double past(double x, double y, double pixel) const;

  private:
    struct Grit {
        double x, y, radius;
    };
    explicit Dust(std::vector<Grit> grits) : grits_(std::move(grits)) {}
    std::vector<Grit> grits_;  ///< a fibre is a chain of them
};

}  // namespace fogproof::demo
