// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/recipe_search.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "choose/closeness.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/clearing.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kDepths = 24;
constexpr double kGradeStep = 0.2, kFinestGrade = 0.1;
constexpr double kFinestDepth = 0.005;  // of the clearing dose
// Candidates of the grid this much dearer than its cheapest, in L*, are refined too. The grid misses the
// bottom of a valley by a tenth of a grade and a thirtieth of clearing at most.
constexpr double kNearBest = 0.5;

DevelopStep step_of(const Pack& pack, const FoundRecipe& recipe) {
    return {recipe.restrainer_ml_l, recipe.develop_s, pack.development.nominal_c};
}

// In hundredths, so that it is the number that people write.
double as_written(double grade) {
    return std::round(100 * grade) / 100;
}

}  // namespace

SearchBounds usual_bounds(const Printing& printing) {
    const auto grades = grades_of(printing.pack(), printing.paper());
    const double nominal = printing.pack().development.nominal_s;
    SearchBounds bounds;
    bounds.softest = grades.front();
    bounds.hardest = grades.back();
    bounds.develop_s = {nominal, std::round(nominal * 2 / 3)};
    return bounds;
}

std::vector<FoundRecipe> ways_of_developing(const SearchBounds& bounds, const Pack& pack) {
    const auto times = bounds.develop_s.empty() ? std::vector{pack.development.nominal_s} : bounds.develop_s;
    std::vector<FoundRecipe> ways;
    for (const double restrainer : bounds.restrainers)
        for (const double develop : times) {
            FoundRecipe way{};
            way.restrainer_ml_l = restrainer;
            way.develop_s = develop;
            ways.push_back(way);
        }
    return ways;
}

std::vector<double> grades_within(const SearchBounds& bounds, double step) {
    const auto& [softest, hardest] = std::pair(bounds.softest, bounds.hardest);
    std::vector<double> grades{softest};
    for (double i = std::floor(softest / step) + 1; i * step < hardest - 1e-9; ++i)
        if (i * step > softest + 1e-9) grades.push_back(as_written(i * step));
    if (hardest > softest) grades.push_back(hardest);
    return grades;
}

double settable_grade(double grade, const SearchBounds& bounds) {
    return std::clamp(as_written(std::round(grade / kFinestGrade) * kFinestGrade), bounds.softest,
                      bounds.hardest);
}

double cost_of_working(const FoundRecipe& recipe, const Pack& pack) {
    return (recipe.restrainer_ml_l > 0 ? kRestrainerCost : 0) + (recipe.bleach_dose > 0 ? kBleachCost : 0) +
           (recipe.develop_s < pack.development.nominal_s ? kShortDevelopmentCost : 0);
}

RecipeSearch::RecipeSearch(const Printing& printing, const Wanted& wanted)
    : printing_(printing), closeness_(std::make_unique<Closeness>(printing, wanted)) {}

RecipeSearch::~RecipeSearch() = default;

std::size_t RecipeSearch::tried() const {
    return closeness_->tried();
}

double RecipeSearch::error(const FoundRecipe& recipe) const {
    return closeness_->rms(recipe.grade, step_of(printing_.pack(), recipe), recipe.bleach_dose,
                           recipe.exposure.value);
}

void RecipeSearch::take(FoundRecipe& recipe, LogExposure exposure, double lightness_error,
                        double made_up_for) const {
    recipe.exposure = exposure;
    recipe.made_up_for = made_up_for;
    recipe.lightness_error = made_up_for < recipe.bleach_dose ? error(recipe) : lightness_error;
    recipe.cost = recipe.lightness_error + cost_of_working(recipe, printing_.pack());
}

void RecipeSearch::expose(FoundRecipe& recipe) const {
    const DevelopStep step = step_of(printing_.pack(), recipe);
    const double made_up_for = closeness_->made_up_for(step, recipe.bleach_dose);
    const auto& [log_h, rms] = closeness_->closest(recipe.grade, step, made_up_for);
    take(recipe, {log_h}, rms, made_up_for);
}

void RecipeSearch::settle(FoundRecipe& recipe) const {
    const DevelopStep step = step_of(printing_.pack(), recipe);
    const double made_up_for = closeness_->made_up_for(step, recipe.bleach_dose);
    const auto [log_h, rms] = closeness_->settled(recipe.grade, step, made_up_for, recipe.exposure.value);
    take(recipe, {log_h}, rms, made_up_for);
}

double RecipeSearch::unit(const FoundRecipe& way) const {
    return closeness_->unit(step_of(printing_.pack(), way));
}

std::vector<double> RecipeSearch::doses(const FoundRecipe& way, const SearchBounds& bounds,
                                        std::size_t depths) const {
    const double whole = unit(way);
    if (bounds.bleach) {
        if (const auto* time = std::get_if<Seconds>(&*bounds.bleach))
            return {bleach_dose(printing_.paper().bleach, printing_.pack().darkroom.bath, *time)};
        const double percent = std::get<ClearingPercent>(*bounds.bleach).value;
        const auto clears = clearing_dose(printing_.paper(), step_of(printing_.pack(), way));
        return clears || percent <= 0 ? std::vector{percent / 100 * clears.value_or(0)}
                                      : std::vector<double>{};
    }
    std::vector<double> doses{0};
    if (whole > 0 && bounds.most_clearing > 0)
        for (std::size_t d = 1; d <= depths; ++d)
            doses.push_back(bounds.most_clearing * whole * double(d) / double(depths));
    return doses;
}

// Pattern search over grade and bleach, each print at its own best exposure; steps halved when none helps.
void RecipeSearch::refine(FoundRecipe& best, const SearchBounds& bounds) const {
    const bool bleach_is_open = best.bleach_dose > 0 && !bounds.bleach;
    const double whole = unit(best), deepest = bounds.most_clearing * whole;
    double grade_step = kGradeStep, depth_step = bleach_is_open ? deepest / kDepths : 0;
    for (;;) {
        bool better = false;
        const auto attempt = [&](double grade, double depth) {
            FoundRecipe next = best;
            next.grade = settable_grade(best.grade + grade, bounds);
            if (bleach_is_open)
                next.bleach_dose = std::clamp(best.bleach_dose + depth, kFinestDepth * whole, deepest);
            expose(next);
            if (next.cost >= best.cost - 1e-9) return;
            best = next;
            better = true;
        };
        for (const double sign : {1.0, -1.0}) {
            attempt(sign * grade_step, 0);
            attempt(0, sign * depth_step);
            // More bleach wants a softer filter, as a rule: a valley that lies askew.
            attempt(-sign * grade_step, sign * depth_step);
            attempt(sign * grade_step, sign * depth_step);
        }
        if (better) continue;
        if (grade_step <= kFinestGrade && depth_step <= kFinestDepth * whole) break;
        grade_step = std::max(grade_step / 2, kFinestGrade);
        depth_step /= 2;
    }
    settle(best);
}

FoundRecipe RecipeSearch::best(const SearchBounds& bounds) const {
    const auto grades = grades_within(bounds, kGradeStep);
    std::vector<FoundRecipe> candidates;
    for (const FoundRecipe& way : ways_of_developing(bounds, printing_.pack())) {
        // The best with and without the bleach: their valleys are apart.
        std::optional<FoundRecipe> plain, thinned;
        for (const double dose : doses(way, bounds, kDepths))
            for (const double grade : grades) {
                FoundRecipe next = way;
                next.grade = grade;
                next.bleach_dose = dose;
                expose(next);
                auto& least = dose > 0 ? thinned : plain;
                if (!least || next.cost < least->cost) least = next;
            }
        for (const auto& least : {plain, thinned})
            if (least) candidates.push_back(*least);
    }
    if (candidates.empty())
        throw Error(Fault::config, "--bleach", "percent of clearing, but there is no fog to clear",
                    "a time in seconds, or 0");
    const double near = std::ranges::min(candidates, {}, &FoundRecipe::cost).cost + kNearBest;
    std::erase_if(candidates, [near](const FoundRecipe& candidate) { return candidate.cost > near; });
    for (FoundRecipe& candidate : candidates) refine(candidate, bounds);
    return std::ranges::min(candidates, {}, &FoundRecipe::cost);
}

Recipe RecipeSearch::as_recipe(const FoundRecipe& found) const {
    const Pack& pack = printing_.pack();
    Recipe recipe;
    recipe.exposures = {{found.grade, Stops{0}}};
    recipe.restrainer_ml_l = found.restrainer_ml_l;
    if (found.develop_s != pack.development.nominal_s) recipe.develop_s = found.develop_s;
    recipe.bleach = bleach_time(printing_.paper().bleach, bleach_bath(pack, recipe), found.bleach_dose);
    recipe.toner = printing_.toner();
    return recipe;
}

}  // namespace fogproof::choose
