// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A piece of an invented 35 mm film of moderate speed in a scanner's holder.
//
// Light to silver, and the grain of the silver: all constants are judgement, a straight line somewhat steeper
// than the average gradient of 0.6 that films are commonly developed to. Perforations after ISO 1007 (from
// memory: 2.8 x 1.98 mm, corners rounded, pitch 4.75 mm, 2 mm from the edge of the film), a frame of 36 x 24
// mm in the middle.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// Density of base and fog.
inline constexpr double kBaseFog = 0.25;

/// Density above clear film for luminance in the scene: a toe, then a straight line.
[[nodiscard]] double developed_density(double luminance);

/// What grain adds to a density at a place on the film, in micrometres, as pixels of a size see it. It is
/// fixed to places on the film, so that a finer scan shows the same grain in more detail; a scan coarser than
/// the grain sees its mean over a pixel.
[[nodiscard]] double grain(double x_um, double y_um, double pixel_um, double density);

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

}  // namespace fogproof::demo
