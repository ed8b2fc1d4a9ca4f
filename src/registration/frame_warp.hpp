// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From places of a negative's frame to places of a scan: the enlarging lens distorts about the frame's
// middle, then planes meet (paper not quite level, scan turned), which is a homography.
#pragma once

#include <array>
#include <cmath>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::registration {

/// A place of the frame: from its middle, in half diagonals, so that corners lie at distance 1.
struct FramePlace {
    double u, v;
    [[nodiscard]] double squared_radius() const { return u * u + v * v; }
};
/// A place of the scan, in its pixels.
struct ScanPlace {
    double x, y;
};

struct FrameWarp {
    /// Homography row by row, its last number 1, then the lens: u becomes u (1 + lens r^2).
    static constexpr int kNumbers = 9;
    std::array<double, kNumbers> numbers{1, 0, 0, 0, 1, 0, 0, 0, 0};
    double lens() const { return numbers[8]; }

    [[nodiscard]] ScanPlace at(FramePlace) const;
    /// Derivatives of x and y by the numbers.
    [[nodiscard]] std::array<std::array<double, kNumbers>, 2> derivatives(FramePlace) const;
    /// The place of the frame that lies at a place of the scan.
    [[nodiscard]] FramePlace back(ScanPlace) const;
    /// The same on a scan whose pixels are `factor` times as large.
    [[nodiscard]] FrameWarp on_pixels(double factor) const;
    /// The same on a scan of which this one is a part that begins so many pixels from its left and top.
    [[nodiscard]] FrameWarp within_whole(double left, double top) const;
};

/// Sizes of a frame of `width` by `height`: half diagonal, and places of its corners (top left, top right,
/// bottom right, bottom left).
[[nodiscard]] inline double half_diagonal(double width, double height) {
    return std::sqrt(width * width + height * height) / 2;  // asked for every pixel
}
[[nodiscard]] std::array<FramePlace, 4> frame_corners(double width, double height);

}  // namespace fogproof::registration
