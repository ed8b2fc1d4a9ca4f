// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From a recipe to print steps: every grade becomes a filter of this pack, every percent a dose.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/print/silver_path.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// One local work with every question answered, where its mask is full.
struct LocalStep {
    LocalWork::Kind kind = LocalWork::Kind::burn;
    std::optional<double> stops;   ///< of all exposures together
    Seconds time;                  ///< where no stops are told
    std::optional<Filter> filter;  ///< of a burn through another one
    std::optional<double> grade;   ///< of that filter
    double dose = 0;               ///< of a bleach
};

/// A recipe with every question answered: real filters, real seconds, a real dose.
struct PrintSteps {
    std::vector<Exposure> exposures;
    std::vector<Exposure> flashes;
    DevelopStep develop;
    Finishing finishing;
    std::vector<LocalStep> local;
};

/// The sum of the exposures through the negative, without flashes and local work.
[[nodiscard]] Seconds exposed(const PrintSteps&);

/// What one place of the sheet gets where masks are at these levels (0 to 1, one for each local work), as if
/// the whole sheet were treated so. Light adds: burns lengthen the exposures in proportion, or are exposures
/// of their own through another filter; dodges shorten them, at most to nothing. Doses of bleach add.
[[nodiscard]] PrintSteps steps_at(const PrintSteps&, std::span<const double> levels);
/// Seconds that a burn adds or a dodge takes away where its mask is at a level.
[[nodiscard]] Seconds local_time(const PrintSteps&, const LocalStep&, double level = 1);

/// True when an exposure of the recipe is given in stops from the starting exposure.
[[nodiscard]] bool needs_start(const Recipe&);

/// Development of the recipe, the pack's nominal time and temperature where the recipe is silent.
[[nodiscard]] DevelopStep develop_step(const Pack&, const Recipe&);
/// The pack's bath at the recipe's dilution and temperature.
[[nodiscard]] BleachBath bleach_bath(const Pack&, const Recipe&);
/// The bleach of a recipe in all its measures.
struct BleachStep {
    Seconds time;  ///< in the bath
    double dose = 0;
    std::optional<double> clearing_percent;  ///< of the clearing dose; nothing where there is no fog to clear
};
/// Worked out from seconds or from percent of clearing, whichever the recipe tells. Throws
/// Error(Fault::config) for a percent on a sheet that has no fog to clear.
[[nodiscard]] BleachStep bleach_step(const Pack&, const PaperModel&, const Recipe&);

/// The recipe with another exposure: stops for the first, the others in their proportion to it; or seconds,
/// for each, as told for this print. Throws Error(Fault::usage) for stops where a recipe mixes stops and
/// seconds.
[[nodiscard]] Recipe with_exposure(Recipe, const std::variant<Stops, Seconds>&, const std::string& place);

/// The steps of a recipe by the proportions of its exposures alone, the first counted as one second: what a
/// curve asks, on any pack. Throws as with_exposure() and print_steps() do.
[[nodiscard]] PrintSteps unit_steps(const Pack&, const PaperModel&, const Recipe&);
/// The steps of a recipe exposed for these very times, one for each of its exposures, on any pack; its own
/// amounts are put aside. Throws Error(Fault::usage) for another number of times, and what print_steps()
/// throws.
[[nodiscard]] PrintSteps timed_steps(const Pack&, const PaperModel&, const Recipe&, std::span<const Seconds>);

/// All steps. `start` is the starting exposure; stops count from it. Throws Error(Fault::usage) for stops
/// without a start, Error(Fault::config) for seconds of exposure on a pack that has no anchor, and what
/// filter_for() throws.
[[nodiscard]] PrintSteps print_steps(const Pack&, const PaperModel&, const Recipe&,
                                     std::optional<Seconds> start);

}  // namespace fogproof::print
