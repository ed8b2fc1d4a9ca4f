// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One direction of a proof grid: a quantity of the recipe and the values it takes.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

enum class AxisQuantity { grade, exposure, restrainer, develop, bleach, redevelop };

/// A number stands for a grade or for ml of restrainer, times for development, bleach and redevelopment.
using AxisAmount = std::variant<double, Stops, Seconds, ClearingPercent>;

struct AxisValue {
    std::string told;  ///< as somebody wrote it: "50%"
    AxisAmount amount;
};

struct Axis {
    AxisQuantity quantity = AxisQuantity::grade;
    std::vector<AxisValue> values;

    /// The recipe with its quantity at one of the values. Throws Error(Fault::usage) where a recipe may not
    /// have it.
    [[nodiscard]] Recipe applied(Recipe, std::size_t index) const;
    /// "bleach=0,50%".
    [[nodiscard]] std::string in_words() const;
};

/// Most values an axis may have.
inline constexpr std::size_t kMostAxisValues = 20;

/// The recipes of a grid, row by row.
[[nodiscard]] std::vector<Recipe> recipes_over(const Recipe&, const Axis& across, const Axis& down);

/// An axis of values as they are written on a command line. Throws as axis_in() does.
[[nodiscard]] Axis axis_of(AxisQuantity, const std::vector<std::string>& told, const std::string& place);
/// One value. Throws Error(Fault::usage) on a text that is none for this quantity.
[[nodiscard]] AxisValue axis_value(AxisQuantity, std::string told, const std::string& place);
/// "grade=1,2,3". Throws Error(Fault::usage) on an unknown quantity (with the nearest known one), no values,
/// too many, or a value that is none.
[[nodiscard]] Axis axis_in(std::string_view text, const std::string& place);
[[nodiscard]] std::string name_of(AxisQuantity);

}  // namespace fogproof::print
