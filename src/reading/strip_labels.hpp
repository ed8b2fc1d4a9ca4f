// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer knows of a strip, joined to the densities read off it: rows of a readings file.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
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

inline constexpr int kMostSteps = 60;
inline constexpr char kWedgeAllowed[] = "START,INCREMENT,STEPS, such as 0.05,0.15,21";
inline constexpr char kBandsAllowed[] = "seconds of 2 or more bands, such as 2,4,8,16";
/// Numbers between commas or spaces as a wedge, or as the seconds of the bands of a test strip; nothing where
/// they cannot be.
[[nodiscard]] std::optional<StepWedge> step_wedge_in(std::string_view text);
[[nodiscard]] std::optional<std::vector<double>> band_seconds_in(std::string_view text);

struct StripLabels {
    Reading common{};  ///< of every row; its density counts for nothing
    std::optional<StepWedge> wedge{};
    std::vector<double> exposures{};  ///< seconds of each band, in any order
};

/// Rows of one strip. The darkest step lay under the thinnest of the wedge, or had the longest exposure.
/// Halves become two strips, NAME-before with no bleach and NAME-bleached.
[[nodiscard]] std::vector<Reading> labelled(const StripReading&, const StripLabels&);

/// Rows out of an instrument, as they came and with what all of them have in common, under the steps that are
/// told. With a wedge or exposures they must be as many, run from dark to light or the other way, and not
/// tell their own. Throws Error(data).
[[nodiscard]] std::vector<Reading> with_steps(std::vector<Reading> rows, const StripLabels&,
                                              const std::string& place);

}  // namespace fogproof::reading
