// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The scene as the lens throws it on the film: luminance for every point of the frame.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::demo {

struct Picture {
    int width = 0, height = 0;
    std::vector<float> luminance;  ///< 1 is a white surface square to the sun

    [[nodiscard]] float at(int x, int y) const {
        return luminance[std::size_t(y) * std::size_t(width) + std::size_t(x)];
    }
};

/// The picture in the proportions of a 36 x 24 mm frame.
[[nodiscard]] Picture photographed(int width, unsigned threads);

}  // namespace fogproof::demo
