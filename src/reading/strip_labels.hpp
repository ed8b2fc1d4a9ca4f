// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer knows of a strip, joined to the densities read off it: rows of a readings file.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

/// The step wedge that a strip was printed through. Usual: 0.05 to 3.05 in 21 steps of half a stop (US Navy
/// training manual NAVEDTRA 14209, p. 10-40).
struct StepWedge {
    double start = 0.05, increment = 0.15;
    int steps = 21;
};

struct StripLabels {
    Reading common{};  ///< of every row; its density counts for nothing
    std::optional<StepWedge> wedge{};
    std::vector<double> exposures{};  ///< seconds of each band, in any order
};

/// Rows of one strip. The darkest step lay under the thinnest of the wedge, or had the longest exposure.
/// Halves become two strips, NAME-before with no bleach and NAME-bleached.
[[nodiscard]] std::vector<Reading> labelled(const StripReading&, const StripLabels&);

/// Rows out of an instrument: its readings as they came. With a wedge or exposures they must be as many, and
/// run from dark to light or the other way; what a row already says of itself stays. Throws Error(data).
[[nodiscard]] std::vector<Reading> labelled(std::span<const Reading>, const StripLabels&,
                                            const std::string& place);

}  // namespace fogproof::reading
