// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The test strip as it will come out on the paper: one piece of the print for each of its bands.
#pragma once

#include <vector>

#include "choose/starting_point.hpp"
#include "choose/strip_place.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::proof {

/// The strip in one state of its treatment.
struct StripState {
    bool bleached = false;
    std::vector<PrintSteps> bands;  ///< from the shortest exposure to the longest
};

struct PredictedStrip {
    TestStripPlace place;
    TestStrip strip;
    Recipe recipe;                   ///< of its likely band
    std::vector<StripState> states;  ///< as developed; after the bleach, where the recipe has one

    /// The band of the told exposure.
    [[nodiscard]] std::size_t told() const { return strip.exposures.size() / 2; }
};

/// The strip that start prescribes for a point, over its place on the picture.
[[nodiscard]] PredictedStrip predicted_strip(const Printing&, const StartingPoint&, const TestStripPlace&);

}  // namespace fogproof::proof
