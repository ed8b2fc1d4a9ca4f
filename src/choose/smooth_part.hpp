// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Parts of a small picture that a moving card could hold back or leave open.
#pragma once

#include <vector>

#include "choose/same_frame.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct SmallPlane {
    int width, height;
    std::vector<NegativeDensity> density;
};
/// At most 240 pixels along the longer side: the mean of the light let through.
[[nodiscard]] SmallPlane made_small(const TonePlane&);

/// By a bell curve of this deviation, in shares of the longer side; the frame's edges count as going on.
[[nodiscard]] std::vector<float> blurred(std::vector<float> values, int width, int height, double deviation);

/// Parts where the values, seen together, lie above a threshold, each from a fiftieth to half of the frame:
/// as masks from 0 to 1 with soft rims, the largest first, at most three.
[[nodiscard]] std::vector<std::vector<float>> smooth_parts(const std::vector<float>& values, int width,
                                                           int height, float above);

}  // namespace fogproof::choose
