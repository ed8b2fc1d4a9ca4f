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

/// A recipe with every question answered: real filters, real seconds, a real dose.
struct PrintSteps {
    std::vector<Exposure> exposures;
    std::vector<Exposure> flashes;
    DevelopStep develop;
    Finishing finishing;
};

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
/// for each. Throws Error(Fault::usage) for stops where a recipe mixes stops and seconds.
[[nodiscard]] Recipe with_exposure(Recipe, const std::variant<Stops, Seconds>&, const std::string& place);

/// The steps of a recipe by the proportions of its exposures alone, the first counted as one second: what a
/// curve asks, on any pack. Throws as with_exposure() and print_steps() do.
[[nodiscard]] PrintSteps unit_steps(const Pack&, const PaperModel&, const Recipe&);
/// The steps of a recipe exposed for these very times, on any pack; its own amounts are put aside.
[[nodiscard]] PrintSteps timed_steps(const Pack&, const PaperModel&, const Recipe&, std::span<const Seconds>);

/// All steps. `start` is the starting exposure; stops count from it. Throws Error(Fault::config) for seconds
/// of exposure on a pack that has no anchor, and what filter_for() throws.
[[nodiscard]] PrintSteps print_steps(const Pack&, const PaperModel&, const Recipe&,
                                     std::optional<Seconds> start);

}  // namespace fogproof::print
