// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// An answer as text. Every word in it is a plain line (base/markup.hpp): whoever prints one is not led
/// astray by the name of a file.
[[nodiscard]] std::string json_text(nlohmann::ordered_json answer);

/// To millionths, which are far below what paper or densitometer hold; more digits are noise of the
/// arithmetic.
[[nodiscard]] double kept(double value);

}  // namespace fogproof::report
