// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The recipe whose print comes closest to what is wanted: a global search over grade, restrainer,
// development, bleach and exposure.
#pragma once

#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "choose/printing.hpp"
#include "choose/starting_exposure.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// What a way of working costs beside its distance from the target, in L* rms, so that the simplest recipe
/// within a hair of the best wins. Judgement. A short development is harder to keep even.
inline constexpr double kRestrainerCost = 0.10, kBleachCost = 0.20, kShortDevelopmentCost = 0.10;

/// Where a search may go.
struct SearchBounds {
    double softest = 0, hardest = 5;  ///< grade
    std::vector<double> restrainers{0, 5, 10, 20,
                                    30};  ///< ml/L; 30 is 3 g/L of bromide, the most that makers used
                                          ///< ("Theory & Practice", Plates-Papers P6)
    std::vector<double> develop_s{};      ///< seconds; none: the pack's nominal time
    /// Of the clearing dose: no deeper than an exposure makes up for; 0 forbids the bleach.
    double most_clearing = kMostMadeUpFor / 100;
    std::optional<std::variant<Seconds, ClearingPercent>> bleach{};  ///< decided, whatever else is said here
};

struct FoundRecipe {
    double grade, restrainer_ml_l, bleach_dose;
    LogExposure exposure;    ///< through clear film
    double lightness_error;  ///< rms L* against what is wanted
    double cost;             ///< the error and what the way of working costs
    double develop_s;
    double made_up_for;  ///< of the bleach's dose, by the exposure: most_made_up_for() at most
};

/// What a way of working costs beside its distance.
[[nodiscard]] double cost_of_working(const FoundRecipe&, const Pack&);

/// All grades of the pack, the usual restrainers, nominal development or two thirds of it, the bleach up to
/// well past clearing.
[[nodiscard]] SearchBounds usual_bounds(const Printing&);
/// Every way of developing within bounds, all else still open.
[[nodiscard]] std::vector<FoundRecipe> ways_of_developing(const SearchBounds&, const Pack&);
/// Both ends of the grades within bounds and every multiple of a step between them.
[[nodiscard]] std::vector<double> grades_within(const SearchBounds&, double step);
/// To the tenth, which filters are not set finer than.
[[nodiscard]] double settable_grade(double grade, const SearchBounds&);

class Closeness;

class RecipeSearch {
  public:
    RecipeSearch(const Printing&, const Wanted&);
    ~RecipeSearch();

    /// The cheapest recipe within bounds, each at its starting exposure: what is ranked is the print that
    /// would be made. Every grade in fifths, every way of developing, 24 depths of bleach and exposures in
    /// fifths of a stop are tried; whatever comes near the best is then refined to a tenth of a grade
    /// (filters are not set finer), a two-hundredth of clearing and 0.001 in log10 exposure.
    [[nodiscard]] FoundRecipe best(const SearchBounds&) const;
    /// A recipe's starting exposure, error and cost, from the tables; to be asked often.
    void expose(FoundRecipe&) const;
    /// The same for a recipe that is told, every tone by itself.
    void settle(FoundRecipe&) const;
    /// The doses of bleach that bounds leave to a way of developing: none, and so many depths; the one that
    /// is decided. Empty where percent of clearing are decided and there is nothing to clear.
    [[nodiscard]] std::vector<double> doses(const FoundRecipe& way, const SearchBounds&,
                                            std::size_t depths) const;
    /// What depths of bleach are counted in after a way of developing: depth_unit().
    [[nodiscard]] double unit(const FoundRecipe& way) const;
    /// rms L* of one recipe against the target, from the tables.
    [[nodiscard]] double error(const FoundRecipe&) const;
    /// Recipes looked at so far.
    [[nodiscard]] std::size_t tried() const;

    /// The recipe as a recipe, at its starting exposure: +0 stops, bleach by its time.
    [[nodiscard]] Recipe as_recipe(const FoundRecipe&) const;

  private:
    void refine(FoundRecipe&, const SearchBounds&) const;
    void take(FoundRecipe&, LogExposure, double lightness_error, double made_up_for) const;

    const Printing& printing_;
    std::unique_ptr<Closeness> closeness_;
};

}  // namespace fogproof::choose
