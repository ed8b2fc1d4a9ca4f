// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// An answer as text. Every word in it is a plain line (base/markup.hpp): whoever prints one is not led
/// astray by the name of a file.
[[nodiscard]] std::string json_text(nlohmann::ordered_json answer);

template <class Value>
[[nodiscard]] nlohmann::ordered_json or_null(const std::optional<Value>& value) {
    return value ? nlohmann::ordered_json(*value) : nlohmann::ordered_json();
}

/// Stops of an exposure from full black, and their 95 % on a pack without an anchor, where no seconds tell
/// the doubt: of the exposure in the pack's pseudo-seconds. Null with an anchor.
void tell_black_stops(nlohmann::ordered_json&, double stops, const Interval& exposure_s, bool anchored);

/// To millionths, which are far below what paper or densitometer hold; more digits are noise of the
/// arithmetic.
[[nodiscard]] double kept(double value);

}  // namespace fogproof::report
