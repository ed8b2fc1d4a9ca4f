// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Toners as the trade calls them.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// In the order of Toner.
inline constexpr std::array<std::string_view, kToners + 1> kTonerNames{"none", "sulphide", "thiourea",
                                                                       "selenium"};

/// Throws Error(Fault::usage) on a word that is no toner.
[[nodiscard]] Toner toner_told(std::string_view text, const std::string& place);
[[nodiscard]] std::string toner_name(Toner);
/// Whether it tones what a bleach took, and so wants a bleach before it.
[[nodiscard]] constexpr bool tones_bleached(Toner toner) {
    return toner == Toner::sulphide || toner == Toner::thiourea;
}

}  // namespace fogproof::print
