// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A spruce in winter as seen from the camera: built twig by twig once, then used at any size.
#pragma once

#include <cstdint>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

class Conifer {
  public:
    /// Grows one tree; slim is the half width of the crown by its height.
    Conifer(std::uint32_t seed, double slim);

    struct Look {
        double light = 0;  ///< luminance times cover
        double cover = 0;  ///< share of the view that the tree takes
    };
    /// across in [-1, 1] half frame widths from the trunk, up in [0, 1] of the height; detail is the size of
    /// what is averaged, in heights of the tree.
    [[nodiscard]] Look look(double across, double up, double detail) const;
    /// Half width of the picture by its height.
    static constexpr double kHalfWidth = 0.25;

  private:
    struct Sheet {
        int width, height;
        std::vector<float> light, cover;
    };
    [[nodiscard]] static Look bilinear(const Sheet&, double x, double y);
    std::vector<Sheet> sheets_;  ///< each half as large as the one before
};

}  // namespace fogproof::demo
