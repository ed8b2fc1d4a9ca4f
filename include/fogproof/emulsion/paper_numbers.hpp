// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// ISO 6846 speed P and range R, read off a finished curve of print density against log exposure.
#pragma once

#include <functional>
#include <optional>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::emulsion {

/// The points of ISO 6846: densities over the minimum, and the shoulder as a share of the net maximum
/// density.
inline constexpr double kIsoToe = 0.04, kIsoSpeed = 0.60, kIsoShoulder = 0.90;

using PaperCurve = std::function<PrintDensity(LogExposure)>;

struct PaperNumbers {
    LogExposure toe;       ///< T: density 0.04 above minimum
    LogExposure speed;     ///< M: density 0.60 above minimum
    LogExposure shoulder;  ///< S: minimum + 0.90 of net maximum density
    double iso_range;      ///< R = 100 (log Hs - log Ht), not rounded
};

/// Reads T, M and S off a rising curve whose minimum and maximum densities are given. Nothing when the net
/// density is too small (0.60/0.90) for M to lie below S. Searches log exposures from -6 to 6.
/// Source: T and S, Focal Encyclopedia of Photography, "From Exposure to Print", p. 679; S on net density and
/// M at 0.60, ISO 6846 from memory.
[[nodiscard]] std::optional<PaperNumbers> paper_numbers(const PaperCurve&, PrintDensity minimum,
                                                        PrintDensity maximum);

/// P = 1000 / Hm with Hm in lux seconds, rounded to the third-stop series 100, 125, 160, ... (from memory).
[[nodiscard]] int rounded_iso_speed(double exposure_lux_s);

}  // namespace fogproof::emulsion
