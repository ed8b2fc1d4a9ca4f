// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Recipes of one exposure.
#pragma once

#include <variant>

#include "fogproof/print/recipe.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// At the starting exposure.
inline Recipe recipe_of(double grade, std::variant<Seconds, ClearingPercent> bleach) {
    Recipe recipe;
    recipe.exposures = {{grade, Stops{0}}};
    recipe.bleach = bleach;
    return recipe;
}

}  // namespace fogproof::tests
