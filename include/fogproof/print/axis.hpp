// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One direction of a proof grid: a quantity of the recipe and the values it takes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogproof/print/recipe.hpp"

namespace fogproof {

enum class AxisQuantity { grade, exposure, restrainer, develop, bleach, redevelop };

struct Axis {
    AxisQuantity quantity = AxisQuantity::grade;
    std::vector<std::string> values;

    /// The recipe with its quantity at one of the values. Throws Error(Fault::usage).
    [[nodiscard]] Recipe applied(Recipe, std::size_t index) const;
};

/// Most values an axis may have.
inline constexpr std::size_t kMostAxisValues = 20;

/// The recipes of a grid, row by row.
[[nodiscard]] std::vector<Recipe> recipes_over(const Recipe&, const Axis& across, const Axis& down);

/// "grade=1,2,3". Throws Error(Fault::usage) on an unknown quantity (with the nearest known one), no values,
/// too many, or a value that is none.
[[nodiscard]] Axis axis_in(std::string_view text, const std::string& place);
[[nodiscard]] std::string name_of(AxisQuantity);

}  // namespace fogproof
