// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>

#include "fogproof/base/error.hpp"
#include "fogproof/print/recipe.hpp"
#include "pack/treatment_limits.hpp"
#include "print/local_entries.hpp"
#include "print/recipe_parts.hpp"

namespace fogproof::print {
namespace {

template <class Kind>
std::optional<double> if_told(const auto& amount) {
    if (const auto* told = std::get_if<Kind>(&amount)) return told->value;
    return std::nullopt;
}

constexpr std::array kParts{
    RecipePart{"enlarger", "magnification", kMagnificationLimits,
               "For which the times hold: long side of print over long side of frame.",
               [](Recipe& recipe, double value) { recipe.magnification = value; },
               [](const Recipe& recipe) { return recipe.magnification; }},
    RecipePart{"enlarger", "f_number", kFNumberLimits, "Of the enlarging lens, for which the times hold.",
               [](Recipe& recipe, double value) { recipe.f_number = value; },
               [](const Recipe& recipe) { return recipe.f_number; }},
    RecipePart{"enlarger", "light_stops", kLightLimits,
               "The light for which the times hold, over that when the pack was read.",
               [](Recipe& recipe, double value) { recipe.light_stops = value; },
               [](const Recipe& recipe) { return recipe.light_stops; }},
    RecipePart{"develop", "restrainer_ml_l", kRestrainerLimits, "Restrainer stock in the working developer.",
               [](Recipe& recipe, double value) { recipe.restrainer_ml_l = value; },
               [](const Recipe& recipe) { return std::optional(recipe.restrainer_ml_l); }},
    RecipePart{"develop", "time_s", kDevelopmentLimits, "Time; without it the pack's nominal time.",
               [](Recipe& recipe, double value) { recipe.develop_s = value; },
               [](const Recipe& recipe) { return recipe.develop_s; }},
    RecipePart{"develop",
               "temperature_c",
               {10, 35, "C"},
               "Temperature; without it the pack's nominal one.",
               [](Recipe& recipe, double value) { recipe.develop_c = value; },
               [](const Recipe& recipe) { return recipe.develop_c; }},
    RecipePart{"bleach", "time_s", kBleachTimeLimits, "Time in the bath.",
               [](Recipe& recipe, double value) { recipe.bleach = Seconds{value}; },
               [](const Recipe& recipe) { return if_told<Seconds>(recipe.bleach); }},
    RecipePart{"bleach", "clearing_percent", kClearingLimits,
               "Instead of a time: depth in percent of what clears the blank sheet.",
               [](Recipe& recipe, double value) { recipe.bleach = ClearingPercent{value}; },
               [](const Recipe& recipe) { return if_told<ClearingPercent>(recipe.bleach); }},
    RecipePart{"bleach", "parts", kBleachPartsLimits, "N of the dilution 1+N; without it the pack's.",
               [](Recipe& recipe, double value) { recipe.bleach_parts = value; },
               [](const Recipe& recipe) { return recipe.bleach_parts; }},
    RecipePart{"bleach",
               "temperature_c",
               {10, 35, "C"},
               "Temperature; without it the pack's.",
               [](Recipe& recipe, double value) { recipe.bleach_c = value; },
               [](const Recipe& recipe) { return recipe.bleach_c; }},
    RecipePart{"redevelop", "time_s", kRedevelopmentLimits, "Time in the second developer.",
               [](Recipe& recipe, double value) { recipe.redevelop_s = value; },
               [](const Recipe& recipe) {
                   // Of a toner only what is told, so that a file leaves its usual time open.
                   if (recipe.toner != Toner::none) return recipe.redevelop_s;
                   return std::optional(recipe.redevelop_s.value_or(0));
               }},
};

std::optional<NumberFault> fault_of(double value, const Limits& limits, const std::string& name) {
    if (within(value, limits)) return std::nullopt;
    return NumberFault{name, shortest(value), limits_in_words(limits)};
}

std::optional<NumberFault> fault_of(const PlannedExposure& exposure, const Limits& seconds,
                                    const std::string& name) {
    if (exposure.grade)
        if (auto fault = fault_of(*exposure.grade, kGradeLimits, name + " grade")) return fault;
    if (const auto* stops = std::get_if<Stops>(&exposure.amount))
        return fault_of(stops->value, kStopsLimits, name);
    return fault_of(std::get<Seconds>(exposure.amount).value, seconds, name);
}

}  // namespace

std::span<const RecipePart> recipe_parts() {
    return kParts;
}

Seconds redevelopment_time(const Recipe& recipe) {
    return recipe.redevelop_s ? Seconds{*recipe.redevelop_s} : usual_time(recipe.toner);
}

bool is_toned(const Recipe& recipe) {
    return recipe.toner != Toner::none && redevelopment_time(recipe).value > 0;
}

std::optional<NumberFault> number_fault(const Recipe& recipe) {
    for (const auto& exposure : recipe.exposures)
        if (auto fault = fault_of(exposure, kExposureLimits, "exposure")) return fault;
    for (const auto& flash : recipe.flashes)
        if (auto fault = fault_of(flash, kFlashLimits, "flash")) return fault;
    for (const auto& part : recipe_parts())
        if (const auto value = part.of(recipe))
            if (auto fault =
                    fault_of(*value, part.limits, std::string(part.section) + "." + std::string(part.key)))
                return fault;
    return std::nullopt;
}

void check(const Recipe& recipe, const std::string& place) {
    if (recipe.exposures.empty() || recipe.exposures.size() > kMostExposures)
        throw Error(Fault::usage, place, std::to_string(recipe.exposures.size()) + " exposures",
                    "1 to " + std::to_string(kMostExposures));
    if (recipe.flashes.size() > kMostExposures)
        throw Error(Fault::usage, place, std::to_string(recipe.flashes.size()) + " flashes",
                    "up to " + std::to_string(kMostExposures));
    for (const auto& flash : recipe.flashes)
        if (!std::holds_alternative<Seconds>(flash.amount))
            throw Error(Fault::usage, place, "a flash in stops", "seconds");
    if (const auto fault = number_fault(recipe))
        throw Error(Fault::usage, place, fault->number + " = " + fault->value, fault->allowed);
    if (recipe.local.size() > kMostLocalWorks)
        throw Error(Fault::usage, place, std::to_string(recipe.local.size()) + " local works",
                    "up to " + std::to_string(kMostLocalWorks));
    for (const auto& work : recipe.local) check(work, place);
}

}  // namespace fogproof::print
