// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/frame_side.hpp"

namespace fogproof::base {

std::string frame_side(double across, double down) {
    constexpr double kThird = 1.0 / 3;
    const std::string high = down < kThird ? "top" : down > 1 - kThird ? "bottom" : "";
    const std::string wide = across < kThird ? "left" : across > 1 - kThird ? "right" : "";
    if (high.empty() && wide.empty()) return "in the middle";
    if (high.empty()) return "on the " + wide;
    return "at the " + high + (wide.empty() ? "" : " " + wide);
}

}  // namespace fogproof::base
