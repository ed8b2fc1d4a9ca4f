// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much of something a recipe asks for, where it is not told in seconds.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// Exposure relative to the starting exposure of this negative, and to nothing else: +1 is twice the time. Of
/// several exposures the start is that of the recipe's own proportions with the first in stops at +0, so one
/// stop more on each doubles all times. A recipe takes -10 to 10.
struct Stops {
    double value = 0.0;
    friend bool operator==(const Stops&, const Stops&) = default;
};

/// Bleach depth in percent of the dose that clears the blank sheet; over 100 is over-bleached.
/// A recipe takes 0 to 1000.
struct ClearingPercent {
    double value = 0.0;
    friend bool operator==(const ClearingPercent&, const ClearingPercent&) = default;
};

}  // namespace fogproof::print
