// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One direction of a proof grid: a quantity of the recipe and the values it takes.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// The last is the amount of one local work. The option that sets a quantity for all prints bears its name.
enum class AxisQuantity { grade, exposure, restrainer, develop, bleach, redevelop, toner, local };

/// A number stands for a grade, for ml of restrainer or for times the amount of a local work, times for
/// development, bleach and redevelopment; a toner for itself.
using AxisAmount = std::variant<double, Stops, Seconds, ClearingPercent, Toner>;

struct AxisValue {
    std::string told;  ///< as somebody wrote it: "50%"
    AxisAmount amount;
};

struct Axis {
    AxisQuantity quantity = AxisQuantity::grade;
    std::vector<AxisValue> values;
    std::string work{};  ///< how the local work is called

    /// The recipe with its quantity at one of the values. Throws Error(Fault::usage) where a recipe may not
    /// have it.
    [[nodiscard]] Recipe applied(Recipe, std::size_t index) const;
    /// "bleach=0,50%".
    [[nodiscard]] std::string in_words() const;
};

/// "grade" and so on, in the order of AxisQuantity; a local work is called by its own name.
[[nodiscard]] std::span<const std::string> axis_names();
/// Most values an axis may have.
inline constexpr std::size_t kMostAxisValues = 20;

/// The recipes of a grid, row by row.
[[nodiscard]] std::vector<Recipe> recipes_over(const Recipe&, const Axis& across, const Axis& down);

/// An axis of values as they are written on a command line. Throws as axis_in() does.
[[nodiscard]] Axis axis_of(AxisQuantity, const std::vector<std::string>& told, const std::string& place,
                           const std::string& work = {});
/// One value. Throws Error(Fault::usage) on a text that is none for this quantity.
[[nodiscard]] AxisValue axis_value(AxisQuantity, std::string told, const std::string& place);
/// "grade=1,2,3". Throws Error(Fault::usage) on a quantity that is not one of `names` (with the nearest of
/// them), no values, too many, or a value that is none.
[[nodiscard]] Axis axis_in(std::string_view text, const std::string& place,
                           std::span<const std::string> names = axis_names());
/// The same where local work may be an axis too: "sky=0,0.5,1" for the work of that name, or "burn" and
/// "dodge" where there is one of them. Plain numbers multiply its amount; stops, seconds and percent stand
/// for themselves.
[[nodiscard]] Axis axis_in(std::string_view text, const std::string& place, const std::vector<LocalWork>&);
/// "bleach", or the name of the local work.
[[nodiscard]] std::string name_of(const Axis&);

}  // namespace fogproof::print
