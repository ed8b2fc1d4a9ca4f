// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A picture of one number a pixel, as registration works on it. A pixel's middle lies at whole + 0.5.
#pragma once

#include <cstddef>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::registration {

struct GreyImage {
    int width = 0, height = 0;
    std::vector<float> values{};  ///< row by row

    GreyImage() = default;
    GreyImage(int wide, int high)
        : width(wide), height(high), values(std::size_t(wide) * std::size_t(high)) {}
    [[nodiscard]] float& at(int x, int y) { return values[index(x, y)]; }
    [[nodiscard]] float at(int x, int y) const { return values[index(x, y)]; }
    [[nodiscard]] bool holds(int x, int y) const { return x >= 0 && y >= 0 && x < width && y < height; }

  private:
    [[nodiscard]] std::size_t index(int x, int y) const {
        return std::size_t(y) * std::size_t(width) + std::size_t(x);
    }
};

/// Gaussian blur of so many pixels (standard deviation); edges are continued. 0 gives the image back.
[[nodiscard]] GreyImage blurred(const GreyImage&, double sigma);
/// Half the size, each pixel the mean of four; an odd last row or column is left out.
[[nodiscard]] GreyImage halved(const GreyImage&);
/// The picture at a smaller size, each pixel the mean of what it covers, cut at exact fractions.
[[nodiscard]] GreyImage area_means(const GreyImage&, int width, int height);

}  // namespace fogproof::registration
