// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/label_doubts.hpp"

#include "print/recipe_doubts.hpp"

namespace fogproof::fit {

std::vector<std::string> label_doubts(std::span<const Reading> readings) {
    std::vector<Recipe> recipes;
    for (const Reading& reading : readings) {
        Recipe recipe;
        recipe.restrainer_ml_l = reading.restrainer_ml_l.value_or(0);
        recipe.develop_s = reading.develop_s;
        recipe.bleach = Seconds{reading.bleach_s};
        recipe.redevelop_s = reading.redevelop_s;
        if (recipes.empty() || !(recipes.back() == recipe)) recipes.push_back(recipe);
    }
    return recipe_doubts(Pack{}, recipes);
}

}  // namespace fogproof::fit
