// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/print_steps.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "print/clearing.hpp"

namespace fogproof::print {
namespace {

Filter filter_of(const Pack& pack, const PaperModel& paper, const PlannedExposure& exposure) {
    if (pack.contrast == Contrast::graded) {
        if (!exposure.grade) return Filter{};
        return filter_for(pack, paper, *exposure.grade);
    }
    return filter_for(pack, paper, exposure.grade.value_or(kUnfilteredGrade));
}

Seconds seconds_of(const Pack& pack, const PlannedExposure& exposure, std::optional<Seconds> start) {
    if (const auto* stops = std::get_if<Stops>(&exposure.amount)) {
        if (!start)
            throw Error(Fault::usage, "exposure", "stops, and no starting exposure from which they count",
                        "seconds, or a starting exposure");
        return stops_factor(stops->value) * *start;
    }
    if (!pack.darkroom.anchored)
        throw Error(Fault::config, "exposure", "seconds mean nothing on a pack without an anchor",
                    Advice{"give stops (+1), an [anchor] in the pack, or --black-time"});
    return std::get<Seconds>(exposure.amount);
}

// A recipe that bleaches the whole sheet as a local work bleaches a part of it.
Recipe bleaching_all(Recipe recipe, const LocalWork& work) {
    if (const auto* percent = std::get_if<ClearingPercent>(&work.amount))
        recipe.bleach = *percent;
    else
        recipe.bleach = std::get<Seconds>(work.amount);
    return recipe;
}

LocalStep local_step(const Pack& pack, const PaperModel& paper, const Recipe& recipe, const LocalWork& work) {
    LocalStep step{work.kind, std::nullopt, {}, std::nullopt, work.grade, 0};
    if (work.kind == LocalWork::Kind::bleach) {
        const BleachStep bleach = bleach_step(pack, paper, bleaching_all(recipe, work));
        step.time = bleach.time;
        step.dose = bleach.dose;
        return step;
    }
    if (const auto* stops = std::get_if<Stops>(&work.amount))
        step.stops = stops->value;
    else
        step.time = seconds_of(pack, {std::nullopt, std::get<Seconds>(work.amount)}, std::nullopt);
    // Through the filter of the only exposure it is nothing but more of that.
    const bool same = recipe.exposures.size() == 1 && recipe.exposures.front().grade == work.grade;
    if (work.grade && !same) step.filter = filter_of(pack, paper, {work.grade, Stops{}});
    return step;
}

double amount_of(const PlannedExposure& exposure) {
    if (const auto* stops = std::get_if<Stops>(&exposure.amount)) return stops_factor(stops->value);
    return std::get<Seconds>(exposure.amount).value;
}

// Each exposure over the first.
std::vector<double> proportions(const Recipe& recipe, const std::string& place) {
    const PlannedExposure& first = recipe.exposures.front();
    std::vector<double> shares;
    for (const auto& exposure : recipe.exposures) {
        if (exposure.amount.index() != first.amount.index())
            throw Error(Fault::usage, place,
                        "some exposures are in stops and others in seconds, so their proportion is unknown",
                        "all in stops (+1) or all in seconds (12s)");
        shares.push_back(amount_of(exposure) / amount_of(first));
    }
    return shares;
}

}  // namespace

Seconds exposed(const PrintSteps& steps) {
    double sum = 0;
    for (const Exposure& exposure : steps.exposures) sum += exposure.time.value;
    return {sum};
}

bool needs_start(const Recipe& recipe) {
    return std::ranges::any_of(recipe.exposures,
                               [](const auto& e) { return std::holds_alternative<Stops>(e.amount); });
}

DevelopStep develop_step(const Pack& pack, const Recipe& recipe) {
    return {recipe.restrainer_ml_l, recipe.develop_s.value_or(pack.development.nominal_s),
            recipe.develop_c.value_or(pack.development.nominal_c)};
}

BleachBath bleach_bath(const Pack& pack, const Recipe& recipe) {
    BleachBath bath = pack.darkroom.bath;
    bath.parts = recipe.bleach_parts.value_or(bath.parts);
    bath.temperature_c = recipe.bleach_c.value_or(bath.temperature_c);
    return bath;
}

BleachStep bleach_step(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    const auto clearing = clearing_dose(paper, develop_step(pack, recipe));
    const BleachBath bath = bleach_bath(pack, recipe);
    BleachStep step;
    if (const auto* time = std::get_if<Seconds>(&recipe.bleach)) {
        step.time = *time;
    } else if (const double percent = std::get<ClearingPercent>(recipe.bleach).value; percent > 0) {
        if (!clearing)
            throw Error(Fault::config, "bleach",
                        decimal(percent, 1) + " % of clearing, but this sheet has no fog to clear",
                        Advice{"give seconds (40s)"});
        step.time = bleach_time(paper.bleach, bath, percent / 100 * *clearing);
    }
    // Of the time, so that a print by percent is the print by its seconds to the last bit.
    step.dose = bleach_dose(paper.bleach, bath, step.time);
    if (clearing) step.clearing_percent = 100 * step.dose / *clearing;
    return step;
}

Recipe with_exposure(Recipe recipe, const std::variant<Stops, Seconds>& amount, const std::string& place) {
    if (std::holds_alternative<Seconds>(amount)) {
        for (auto& exposure : recipe.exposures) exposure.amount = amount, exposure.is_todays = true;
        return recipe;
    }
    const auto shares = proportions(recipe, place);
    for (std::size_t i = 0; i < shares.size(); ++i)
        recipe.exposures[i].amount = Stops{std::get<Stops>(amount).value + std::log2(shares[i])};
    return recipe;
}

PrintSteps unit_steps(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    std::vector<Seconds> times;
    for (const double share : proportions(recipe, "exposure")) times.push_back({share});
    return timed_steps(pack, paper, recipe, times);
}

PrintSteps timed_steps(const Pack& pack, const PaperModel& paper, const Recipe& recipe,
                       std::span<const Seconds> times) {
    if (times.size() != recipe.exposures.size())
        throw Error(Fault::usage, "exposure", std::to_string(times.size()) + " times",
                    "as many as exposures, " + std::to_string(recipe.exposures.size()));
    Recipe from_start = recipe;
    for (auto& exposure : from_start.exposures) exposure.amount = Stops{0};
    PrintSteps steps = print_steps(pack, paper, from_start, Seconds{1});
    for (std::size_t i = 0; i < steps.exposures.size(); ++i) steps.exposures[i].time = times[i];
    return steps;
}

PrintSteps print_steps(const Pack& pack, const PaperModel& paper, const Recipe& recipe,
                       std::optional<Seconds> start) {
    PrintSteps steps;
    for (const auto& exposure : recipe.exposures)
        steps.exposures.push_back({filter_of(pack, paper, exposure), seconds_of(pack, exposure, start)});
    for (const auto& flash : recipe.flashes)
        steps.flashes.push_back({filter_of(pack, paper, flash), seconds_of(pack, flash, std::nullopt)});
    steps.develop = develop_step(pack, recipe);
    steps.finishing = {bleach_step(pack, paper, recipe).dose, redevelopment_time(recipe), recipe.toner};
    for (const LocalWork& work : recipe.local) steps.local.push_back(local_step(pack, paper, recipe, work));
    return steps;
}

}  // namespace fogproof::print
