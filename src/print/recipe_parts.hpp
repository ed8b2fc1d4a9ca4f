// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Every number of a recipe: its key in the file, its limits, where it lives. Limits are judgement and keep
// slips of the pen out.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::print {

/// More filters than this on one sheet is a slip of the pen.
inline constexpr std::size_t kMostExposures = 8;

inline constexpr Limits kGradeLimits{-1, 6, "", true};
inline constexpr Limits kStopsLimits{-10, 10, "stops"};
inline constexpr Limits kExposureLimits{0.05, 3600, "s"};
inline constexpr Limits kFlashLimits{0.01, 600, "s"};

/// A number of the steps after exposure.
struct RecipePart {
    std::string_view section, key;
    Limits limits;
    std::string_view description;
    void (*set)(Recipe&, double);
    std::optional<double> (*of)(const Recipe&);  ///< nothing: left to the pack, or told by another part
};

/// In the order of the file.
[[nodiscard]] std::span<const RecipePart> recipe_parts();

/// What is wrong with a number of a recipe: "bleach.time_s", "-4", "0 to 7200 s".
struct NumberFault {
    std::string number, value, allowed;
};
/// The first of them, exposures and flashes before the steps after them.
[[nodiscard]] std::optional<NumberFault> number_fault(const Recipe&);

}  // namespace fogproof::print
