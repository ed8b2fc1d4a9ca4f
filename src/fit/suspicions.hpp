// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far strips are off a fit.
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "fit/likeness.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// What a reading is off as a rule, its sheet's shift set off.
[[nodiscard]] double unit_of(const ErrorSizes&);

/// How far a strip's squares, in units of their error and the shift of a sheet set off, lie beyond what is
/// suspicious, in standard deviations of their chance (chi squared).
[[nodiscard]] std::map<std::string, double> suspicions(const ErrorSizes&, std::span<const Reading>,
                                                       std::span<const double> densities);

/// Of strips those farthest beyond, the farthest first; one without a figure counts as just suspicious.
[[nodiscard]] std::vector<std::string> most_suspicious(std::vector<std::string> strips,
                                                       const std::map<std::string, double>& beyond,
                                                       std::size_t count);

/// D, of every strip.
[[nodiscard]] std::map<std::string, double> strips_rms(std::span<const Reading>,
                                                       std::span<const double> densities);
/// D, of one strip or of a sheet with both its halves.
[[nodiscard]] double strip_rms(std::span<const Reading>, std::span<const double> densities,
                               const std::string& strip);

}  // namespace fogproof::fit
