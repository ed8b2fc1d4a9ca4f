// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan turned about its middle, onto a sheet that is just large enough to hold it: where its pixels go.
#pragma once

#include "base/region.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// A place in pixels; the first pixel reaches from 0 to 1 in both directions.
struct PixelPlace {
    double x, y;
};

class Turning {
  public:
    /// Clockwise, by at most 45 degrees; the size is that of the scan as it lies.
    Turning(double degrees, int width, int height);

    [[nodiscard]] double degrees() const { return degrees_; }
    /// Size of the turned scan.
    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] int height() const { return height_; }
    [[nodiscard]] PixelPlace place_turned(PixelPlace lying) const;
    [[nodiscard]] PixelPlace place_lying(PixelPlace turned) const;
    /// An upright region of the same size about the place where its middle goes, and back.
    [[nodiscard]] Region turned(const Region& lying) const;
    [[nodiscard]] Region lying(const Region& turned) const;
    /// The region drawn in until nothing lies in it that the scan does not show; empty where nothing is left.
    [[nodiscard]] Region within_scan(const Region& turned) const;

  private:
    double degrees_, cos_, sin_;
    int lying_width_, lying_height_;
    int width_, height_;
};

}  // namespace fogproof::pixels
