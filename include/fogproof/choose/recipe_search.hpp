// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The recipe whose print comes closest to what is wanted: a global search over grade, restrainer, bleach and
// exposure.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "fogproof/choose/easel.hpp"
#include "fogproof/choose/quick_print.hpp"

namespace fogproof {

/// What a way of working costs beside its distance from the target, in L* rms, so that the simplest recipe
/// within a hair of the best wins. Judgement.
inline constexpr double kRestrainerCost = 0.10, kBleachCost = 0.20;

/// Where a search may go.
struct SearchBounds {
    double softest = 0, hardest = 5;  ///< grade
    std::vector<double> restrainers{0, 5, 10, 20,
                                    30};  ///< ml/L; 30 is 3 g/L of bromide, the most that makers used
                                          ///< ("Theory & Practice", Plates-Papers P6)
    double most_clearing = 1.6;           ///< of the clearing dose; 0 forbids the bleach
};

/// All grades of the pack, the usual restrainers, the bleach up to well past clearing.
[[nodiscard]] SearchBounds usual_bounds(const Easel&);

struct FoundRecipe {
    double grade, restrainer_ml_l, bleach_dose;
    LogExposure exposure;    ///< through clear film
    double lightness_error;  ///< rms L* against the target
    double cost;             ///< the error and what the way of working costs
};

/// Tones of the negative, the L* wanted of each, and how much each counts (shares that add up to 1).
struct Wanted {
    std::vector<Tone> tones;
    std::vector<double> lightness;
};

class RecipeSearch {
  public:
    RecipeSearch(const Easel&, const Wanted&);

    /// The cheapest recipe within bounds. Every grade in quarters, every restrainer, 24 depths of bleach and
    /// exposures in thirds of a stop are tried; the best of each restrainer is then refined to 0.02 grade and
    /// 0.005 log10.
    [[nodiscard]] FoundRecipe best(const SearchBounds&) const;
    /// rms L* of one recipe against the target, from the tables.
    [[nodiscard]] double error(double grade, double restrainer_ml_l, double dose, LogExposure) const;
    /// Recipes looked at so far.
    [[nodiscard]] std::size_t tried() const { return tried_; }

    /// The recipe as a recipe: exposure in stops from one second, bleach by its time.
    [[nodiscard]] Recipe as_recipe(const FoundRecipe&) const;

  private:
    struct Tally;
    [[nodiscard]] const ShareCurve& share_curve(double grade) const;
    [[nodiscard]] double clearing(double restrainer_ml_l) const;
    void refine(FoundRecipe&, const SearchBounds&) const;
    [[nodiscard]] double cost_of(FoundRecipe&) const;

    const Easel& easel_;
    std::vector<double> wanted_, log_light_, share_of_area_;
    BleachedLightness lightness_;
    mutable std::map<long, ShareCurve> curves_;  // by hundredths of a grade
    mutable std::size_t tried_ = 0;
};

}  // namespace fogproof
