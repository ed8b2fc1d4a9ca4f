// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the chosen band of a real test strip says.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "choose/seen_band.hpp"
#include "choose/starting_point.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// "band 3 (18 s) looks as 28 s was to look: paper and light are 0.67 stop faster than the pack said".
[[nodiscard]] std::string seen_words(const SeenBand&);
/// What follows from it for the chosen print, in lines.
[[nodiscard]] std::string seen_consequences(const SeenBand&, const Enlarger& today);
[[nodiscard]] nlohmann::ordered_json seen_json(const SeenBand&, const StartingPoint& best,
                                               const Enlarger& today);

}  // namespace fogproof::report
