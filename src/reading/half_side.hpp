// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where the bleached one of two halves lies on a scan, as it is told.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::reading {

enum class HalfSide : std::size_t { left, right, upper, lower };

inline constexpr std::array kHalfSides{"left", "right", "upper", "lower"};
inline constexpr char kHalfSidesAllowed[] = "left, right, upper or lower";

[[nodiscard]] inline std::optional<HalfSide> half_side_in(std::string_view text) {
    const auto found = std::ranges::find(kHalfSides, text);
    if (found == kHalfSides.end()) return std::nullopt;
    return HalfSide(found - kHalfSides.begin());
}

[[nodiscard]] inline const char* word_of(HalfSide side) {
    return kHalfSides.at(std::size_t(side));
}

}  // namespace fogproof::reading
