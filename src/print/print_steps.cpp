// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/print_steps.hpp"

#include <algorithm>

#include "fogproof/base/error.hpp"
#include "fogproof/base/words.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/clearing.hpp"

namespace fogproof {
namespace {

// Grade of an exposure without a filter on variable-contrast paper, by trade habit (common practice, no
// source).
constexpr double kUnfilteredGrade = 2;

Filter filter_of(const Pack& pack, const PaperModel& paper, const PlannedExposure& exposure) {
    if (pack.contrast == Contrast::graded) {
        if (!exposure.grade) return Filter{};
        return filter_for(pack, paper, *exposure.grade);
    }
    return filter_for(pack, paper, exposure.grade.value_or(kUnfilteredGrade));
}

Seconds seconds_of(const Pack& pack, const PlannedExposure& exposure, std::optional<Seconds> start) {
    if (const auto* stops = std::get_if<Stops>(&exposure.amount)) {
        if (!start) throw Error(Fault::internal, "exposure", "stops without a starting exposure");
        return stops_factor(stops->value) * *start;
    }
    if (!pack.anchored)
        throw Error(Fault::config, "exposure", "seconds mean nothing on a pack without an anchor",
                    "give stops (+1), an [anchor] in the pack, or --black-time");
    return std::get<Seconds>(exposure.amount);
}

}  // namespace

bool needs_start(const Recipe& recipe) {
    return std::ranges::any_of(recipe.exposures,
                               [](const auto& e) { return std::holds_alternative<Stops>(e.amount); });
}

DevelopStep develop_step(const Pack& pack, const Recipe& recipe) {
    return {recipe.restrainer_ml_l, recipe.develop_s.value_or(pack.development.nominal_s),
            recipe.develop_c.value_or(pack.development.nominal_c)};
}

BleachBath bleach_bath(const Pack& pack, const Recipe& recipe) {
    BleachBath bath = pack.bath;
    bath.parts = recipe.bleach_parts.value_or(bath.parts);
    bath.temperature_c = recipe.bleach_c.value_or(bath.temperature_c);
    return bath;
}

Seconds bleach_seconds(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    if (const auto* time = std::get_if<Seconds>(&recipe.bleach)) return *time;
    const double percent = std::get<ClearingPercent>(recipe.bleach).value;
    if (percent == 0) return {0};
    const auto clearing = clearing_dose(paper, develop_step(pack, recipe));
    if (!clearing)
        throw Error(Fault::config, "bleach",
                    decimal(percent, 1) + " % of clearing, but this sheet has no fog to clear",
                    "give seconds (40s)");
    return bleach_time(paper.bleach, bleach_bath(pack, recipe), percent / 100 * *clearing);
}

PrintSteps print_steps(const Pack& pack, const PaperModel& paper, const Recipe& recipe,
                       std::optional<Seconds> start) {
    PrintSteps steps;
    for (const auto& exposure : recipe.exposures)
        steps.exposures.push_back({filter_of(pack, paper, exposure), seconds_of(pack, exposure, start)});
    for (const auto& flash : recipe.flashes)
        steps.flashes.push_back({filter_of(pack, paper, flash), seconds_of(pack, flash, std::nullopt)});
    steps.develop = develop_step(pack, recipe);
    steps.bleach_dose =
        bleach_dose(paper.bleach, bleach_bath(pack, recipe), bleach_seconds(pack, paper, recipe));
    steps.redevelop = {recipe.redevelop_s};
    return steps;
}

}  // namespace fogproof
