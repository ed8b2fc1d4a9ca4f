// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Numbers written with a decimal comma, as half of the world does. A comma separates values here, so such a
// number is refused, and the refusal says why.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// "1,5s" as "1.5s"; nothing when the text is not one number with a decimal comma.
[[nodiscard]] std::optional<std::string> with_decimal_point(std::string_view text);
/// " (a decimal comma? write 1.5s)", or nothing.
[[nodiscard]] std::string comma_advice(std::string_view text);

/// True where a comma stands between two digits: the likely reason why a text with a fault in it has one.
[[nodiscard]] bool has_decimal_comma(std::string_view text);

}  // namespace fogproof::base
