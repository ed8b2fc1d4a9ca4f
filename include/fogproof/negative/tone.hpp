// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <cstddef>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::negative {

/// One density that occurs in the frame and its share of the area. What local work adds to the light of some
/// places makes tones of one density different ones.
struct Tone {
    NegativeDensity density;
    double share;
    std::size_t place = 0;  ///< among those that are told apart; 0 where nothing is local
};

}  // namespace fogproof::negative
