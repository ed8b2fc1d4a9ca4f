// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A reflection scan as numbers: the light each place sends back, and how much of the place is clipped.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

struct ReflectionImage {
    int width = 0, height = 0;
    double scan_pixels = 1;          ///< side of one pixel of this image, in pixels of the scan
    std::vector<float> light{};      ///< linear, 1 = full scale of the scan, row by row
    std::vector<float> clipped{};    ///< share of the pixel's area at the first or last code, 0 to 1
    bool is_coarsely_coded = false;  ///< 8 bit: codes lie apart, and a scanner's program has made them
    bool linear_is_guess = false;    ///< nobody and nothing says what its codes stand for

    [[nodiscard]] float light_at(int x, int y) const { return light[index(x, y)]; }
    [[nodiscard]] float clipped_at(int x, int y) const { return clipped[index(x, y)]; }
    [[nodiscard]] std::size_t index(int x, int y) const {
        return std::size_t(y) * std::size_t(width) + std::size_t(x);
    }
};

}  // namespace fogproof::scan
