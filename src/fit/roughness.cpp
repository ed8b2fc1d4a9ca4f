// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/roughness.hpp"

#include <algorithm>

namespace fogproof::fit {

double roughness(double density) {
    constexpr double kEven = 0.012, kRising = 0.008;
    return (kEven + kRising * std::max(density, 0.0)) / (kEven + kRising * kRoughAt);
}

}  // namespace fogproof::fit
