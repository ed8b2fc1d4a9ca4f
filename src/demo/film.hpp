// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An invented film of moderate speed: light to silver, and the grain of the silver. Densities count from
// clear film. All constants are judgement: a straight line somewhat steeper than the average gradient of 0.6
// that films are commonly developed to.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

/// Density of base and fog.
inline constexpr double kBaseFog = 0.25;

/// Density above clear film for luminance in the scene: a toe, then a straight line.
[[nodiscard]] double developed_density(double luminance);

/// The grain of the developed film, fixed to places on the film, so that a finer scan shows the same grain in
/// more detail. A scan coarser than the grain sees its mean over a pixel.
class Grain {
  public:
    explicit Grain(double pixel_um);
    /// What grain adds to a density at a place on the film, in micrometres.
    [[nodiscard]] double at(double x_um, double y_um, double density) const;

  private:
    double pitch_, strength_;
};

}  // namespace fogproof::demo
