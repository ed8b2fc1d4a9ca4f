// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/label_doubts.hpp"

#include <algorithm>
#include <optional>

#include "base/words.hpp"
#include "fit/stated_densities.hpp"
#include "print/recipe_doubts.hpp"

namespace fogproof::fit {
namespace {

// D; the base of no paper reflects so much. Common practice, no source: whites read 0.04 to 0.12.
constexpr double kLeastWhite = 0.025;

std::optional<std::string> bleach_forgotten(std::span<const Reading> readings) {
    const auto found = std::ranges::find_if(
        readings, [](const Reading& reading) { return reading.redevelop_s > 0 && reading.bleach_s <= 0; });
    if (found == readings.end()) return std::nullopt;
    return "strip \"" + found->strip + "\" was redeveloped for " + decimal(found->redevelop_s, 1) +
           " s but not bleached, which changes nothing: is its bleach_s missing?";
}

std::optional<std::string> counted_from_white(std::span<const Reading> readings) {
    double sum = 0, count = 0;
    for (const Reading& reading : readings)
        if (!is_stated_density(reading) && reading.develop_s && *reading.develop_s <= 0)
            sum += reading.density, ++count;
    if (count == 0 || sum / count >= kLeastWhite) return std::nullopt;
    return "paper that was only fixed reads " + fixed(sum / count, 2) +
           " D, less than any white: were densities counted from the paper's own white? They are wanted "
           "absolute, from the instrument's white tile";
}

}  // namespace

std::vector<std::string> label_doubts(std::span<const Reading> readings, const Pack& pack) {
    std::vector<Recipe> recipes;
    for (const Reading& reading : readings) {
        Recipe recipe;
        recipe.restrainer_ml_l = reading.restrainer_ml_l.value_or(0);
        recipe.develop_s = reading.develop_s;
        recipe.bleach = Seconds{reading.bleach_s};
        recipe.redevelop_s = reading.redevelop_s;
        if (recipes.empty() || !(recipes.back() == recipe)) recipes.push_back(recipe);
    }
    std::vector<std::string> doubts = recipe_doubts(pack, recipes);
    if (const auto doubt = bleach_forgotten(readings)) doubts.push_back(*doubt);
    if (const auto doubt = counted_from_white(readings)) doubts.push_back(*doubt);
    return doubts;
}

}  // namespace fogproof::fit
