// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Amounts as they are written on a command line or a grid's axis: 12s, +1, 40s, 100%.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// "12s", "1:30", "2min" a time; "+1", "-0.5", "+1/3" or "1stop" stops from the starting exposure. A bare
/// number other than 0 could be either and is refused. Throws Error(Fault::usage) with `place` in front.
[[nodiscard]] std::variant<Stops, Seconds> exposure_amount(std::string_view text, const std::string& place);
/// "+1/3", "-0.5", "1/3", "1 stop": stops, where nothing else could be meant. Nothing of another text.
[[nodiscard]] std::optional<Stops> stops_told(std::string_view text);
/// "40s", "40", "1:30", "2min" a time; "100%" of the clearing dose.
[[nodiscard]] std::variant<Seconds, ClearingPercent> bleach_amount(std::string_view text,
                                                                   const std::string& place);
/// A plain number, with or without the given unit behind it (a time in minutes too, where that is "s");
/// without one, nothing may stand there.
[[nodiscard]] double plain_amount(std::string_view text, std::string_view unit, const std::string& place);

}  // namespace fogproof::print
