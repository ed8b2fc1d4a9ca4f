// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/worked_grid.hpp"

#include <algorithm>
#include <array>

#include "base/words.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/clearing.hpp"
#include "system/threads.hpp"

namespace fogproof::proof {

namespace {

std::vector<std::string> usual_grades(const Printing& printing) {
    auto grades = grades_of(printing.pack(), printing.paper());
    constexpr std::size_t kMost = 4;
    while (grades.size() > kMost) {
        // Drops the end that lies further from the middle grade of 2.5.
        if (2.5 - grades.front() >= grades.back() - 2.5)
            grades.erase(grades.begin());
        else
            grades.pop_back();
    }
    std::vector<std::string> told;
    for (const double grade : grades) told.push_back(grade_name(grade));
    return told;
}

// Whether each of these prints has a white that can clear, which shares of clearing speak of.
bool have_fog(const Printing& printing, std::span<const Recipe> prints) {
    return std::ranges::all_of(prints, [&](const Recipe& recipe) {
        return clearing_dose(printing.paper(), develop_step(printing.pack(), recipe)).has_value();
    });
}

// Of an axis that crosses these prints.
std::vector<std::string> usual_values(AxisQuantity quantity, const Printing& printing,
                                      std::span<const Recipe> prints) {
    switch (quantity) {
        case AxisQuantity::grade:
            return usual_grades(printing);
        case AxisQuantity::exposure:
            return {"-0.5", "+0", "+0.5", "+1"};
        case AxisQuantity::bleach:
            if (have_fog(printing, prints)) return {"0%", "50%", "100%", "150%"};
            return {"0s", "20s", "40s", "60s"};
        case AxisQuantity::restrainer:
            return {"0", "10", "20", "30"};
        default:
            break;
    }
    std::vector<std::string> times;  // of development; no other is ever usual
    for (const double share : {2.0 / 3, 1.0, 1.5})
        times.push_back(decimal(share * printing.pack().development.nominal_s, 0) + "s");
    return times;
}

// The first of these that is not held.
std::optional<Axis> first_free(std::span<const AxisQuantity> quantities, const Printing& printing,
                               std::span<const Recipe> prints, std::span<const AxisQuantity> held,
                               const char* place) {
    for (const AxisQuantity quantity : quantities) {
        const bool is_graded = printing.pack().contrast == Contrast::graded;
        if ((is_graded && quantity == AxisQuantity::grade) || std::ranges::find(held, quantity) != held.end())
            continue;
        return axis_of(quantity, usual_values(quantity, printing, prints), place);
    }
    return std::nullopt;
}

}  // namespace

Axis usual_across(const Printing& printing, const Recipe& base, std::span<const AxisQuantity> held) {
    using enum AxisQuantity;
    constexpr std::array kOrder{grade, exposure, restrainer, develop};
    if (auto axis = first_free(kOrder, printing, std::array{base}, held, "across")) return std::move(*axis);
    return axis_of(restrainer, {decimal(base.restrainer_ml_l, 3)}, "across");
}

Axis usual_down(const Printing& printing, const Recipe& base, const Axis& across,
                std::span<const AxisQuantity> held) {
    using enum AxisQuantity;
    constexpr std::array kOrder{bleach, restrainer, develop, exposure};
    std::vector<Recipe> columns;
    for (std::size_t i = 0; i < across.values.size(); ++i) columns.push_back(across.applied(base, i));
    if (auto axis = first_free(kOrder, printing, columns, held, "down")) return std::move(*axis);
    return axis_of(develop, {decimal(develop_step(printing.pack(), base).time_s, 3) + "s"}, "down");
}

namespace {

Recipe but_for_exposure(Recipe recipe) {
    for (auto& exposure : recipe.exposures) exposure = {exposure.grade};
    return recipe;
}

// As `start` chooses: of prints that differ in their exposure alone the one that an eye sees closest, and of
// these the least off in absolute lightness.
std::size_t closest_of(const std::vector<Proof>& proofs) {
    std::vector<Recipe> ways;
    std::vector<std::size_t> best;  // proof of each way
    for (std::size_t i = 0; i < proofs.size(); ++i) {
        Recipe way = but_for_exposure(proofs[i].recipe);
        const auto found = std::size_t(std::ranges::find(ways, way) - ways.begin());
        if (found == ways.size()) {
            ways.push_back(std::move(way));
            best.push_back(i);
        } else if (proofs[i].seen_error < proofs[best[found]].seen_error) {
            best[found] = i;
        }
    }
    return *std::ranges::min_element(best, {}, [&](std::size_t i) { return proofs[i].lightness_error; });
}

}  // namespace

WorkedGrid worked_grid(const Printing& printing, GridRequest request) {
    WorkedGrid grid;
    const std::vector<Recipe> recipes = recipes_over(request.base, request.across, request.down);
    grid.proofs.resize(recipes.size());
    in_parallel(grid.proofs.size(), [&](std::size_t i) {
        const Recipe& recipe = recipes[i];
        const bool from_want = request.wanted && needs_start(recipe);
        grid.proofs[i] = from_want
                             ? printing.proof(recipe, printing.starting_exposure(recipe, *request.wanted))
                             : printing.proof(recipe);
    });
    grid.closest = closest_of(grid.proofs);
    grid.request = std::move(request);
    return grid;
}

}  // namespace fogproof::proof
