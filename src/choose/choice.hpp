// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The recipe to be told: not the one that comes closest on the likeliest paper, but the one whose print is
// expected closest to what is wanted, with everything in doubt that the pack leaves open. So a recipe stays
// near what was measured unless leaving pays.
#pragma once

#include <cstddef>
#include <map>
#include <tuple>
#include <vector>

#include "choose/prospects.hpp"
#include "choose/recipe_search.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// The recipe as the printer is told it, in seconds.
[[nodiscard]] ToldRecipe as_told(const FoundRecipe&, const Printing&);

class Choice {
  public:
    Choice(const Printing&, const Wanted&);

    /// The cheapest recipe within bounds: expected distance, and what the way of working costs. Each recipe
    /// is exposed for its starting exposure on the likeliest paper. Looked at are the best of a RecipeSearch,
    /// and grades in halves and eight depths of bleach of every way of developing; what comes near the best
    /// is refined to a tenth of a grade and a fiftieth of clearing.
    [[nodiscard]] FoundRecipe best(const SearchBounds&);
    /// Recipes looked at so far.
    [[nodiscard]] std::size_t tried() const { return search_.tried(); }
    [[nodiscard]] const RecipeSearch& search() const { return search_; }

    using Key = std::tuple<long, double, double, double>;  ///< grade in hundredths, restrainer, time, dose

  private:
    using Expected = std::map<Key, double>;

    /// What is expected of recipes on the first so many papers, as their cost.
    void weigh(std::vector<FoundRecipe>&, Expected&, std::size_t draws);
    void weigh(std::vector<FoundRecipe>& recipes) { weigh(recipes, expected_, prospects_.draws()); }
    [[nodiscard]] std::vector<FoundRecipe> promising(const SearchBounds&);
    void refine(FoundRecipe&, const SearchBounds&);

    const Printing& printing_;
    RecipeSearch search_;
    Prospects prospects_;
    Expected expected_, roughly_expected_;
};

}  // namespace fogproof::choose
