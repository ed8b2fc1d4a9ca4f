// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/recipe_search.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "choose/closeness.hpp"
#include "fogproof/print/print_steps.hpp"

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

// Both ends and every multiple of the step between them.
std::vector<double> grades_between(double softest, double hardest) {
    std::vector<double> grades{softest};
    for (double i = std::floor(softest / kGradeStep) + 1; i * kGradeStep < hardest - 1e-9; ++i)
        if (i * kGradeStep > softest + 1e-9) grades.push_back(i * kGradeStep);
    if (hardest > softest) grades.push_back(hardest);
    return grades;
}

double tenth(double grade) {
    return std::round(grade / kFinestGrade) * kFinestGrade;
}

}  // namespace

SearchBounds usual_bounds(const Easel& easel) {
    const auto grades = grades_of(easel.pack(), easel.paper());
    const double nominal = easel.pack().development.nominal_s;
    SearchBounds bounds;
    bounds.softest = grades.front();
    bounds.hardest = grades.back();
    bounds.develop_s = {nominal, std::round(nominal * 2 / 3)};
    return bounds;
}

RecipeSearch::RecipeSearch(const Easel& easel, const Wanted& wanted)
    : easel_(easel), closeness_(std::make_unique<Closeness>(easel, wanted)) {}

RecipeSearch::~RecipeSearch() = default;

std::size_t RecipeSearch::tried() const {
    return closeness_->tried();
}

double RecipeSearch::error(const FoundRecipe& recipe) const {
    return closeness_->rms(recipe.grade, step_of(easel_.pack(), recipe), recipe.bleach_dose,
                           recipe.exposure.value);
}

double RecipeSearch::cost_of(const FoundRecipe& recipe) const {
    return recipe.lightness_error + (recipe.restrainer_ml_l > 0 ? kRestrainerCost : 0) +
           (recipe.bleach_dose > 0 ? kBleachCost : 0) +
           (recipe.develop_s < easel_.pack().development.nominal_s ? kShortDevelopmentCost : 0);
}

// Pattern search over grade and bleach, each print at its own best exposure; steps halved when none helps.
void RecipeSearch::refine(FoundRecipe& best, const SearchBounds& bounds, double clearing) const {
    const DevelopStep step = step_of(easel_.pack(), best);
    const double deepest = bounds.most_clearing * clearing;
    double grade_step = kGradeStep, depth_step = best.bleach_dose > 0 ? deepest / kDepths : 0;
    for (;;) {
        bool better = false;
        const auto attempt = [&](double grade, double depth) {
            FoundRecipe next = best;
            next.grade = std::clamp(tenth(best.grade + grade), bounds.softest, bounds.hardest);
            if (best.bleach_dose > 0)
                next.bleach_dose = std::clamp(best.bleach_dose + depth, kFinestDepth * clearing, deepest);
            const auto& closest = closeness_->closest(next.grade, step, next.bleach_dose);
            next.exposure = {closest.log_h};
            next.lightness_error = closest.rms;
            next.cost = cost_of(next);
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
        if (grade_step <= kFinestGrade && depth_step <= kFinestDepth * clearing) break;
        grade_step = std::max(grade_step / 2, kFinestGrade);
        depth_step /= 2;
    }
    const auto settled = closeness_->settled(best.grade, step, best.bleach_dose, best.exposure.value);
    best.exposure = {settled.log_h};
    best.lightness_error = settled.rms;
    best.cost = cost_of(best);
}

FoundRecipe RecipeSearch::best(const SearchBounds& bounds) const {
    const double nominal = easel_.pack().development.nominal_s;
    const auto times = bounds.develop_s.empty() ? std::vector{nominal} : bounds.develop_s;
    const auto grades = grades_between(bounds.softest, bounds.hardest);
    std::vector<FoundRecipe> candidates;
    for (const double restrainer : bounds.restrainers)
        for (const double develop : times) {
            FoundRecipe way{};
            way.restrainer_ml_l = restrainer;
            way.develop_s = develop;
            const DevelopStep step = step_of(easel_.pack(), way);
            const double clearing = closeness_->clearing(step);
            // The best with and without the bleach: their valleys are apart.
            std::optional<FoundRecipe> plain, thinned;
            const std::size_t depths = clearing > 0 && bounds.most_clearing > 0 ? kDepths : 0;
            for (std::size_t d = 0; d <= depths; ++d)
                for (const double grade : grades) {
                    FoundRecipe next = way;
                    next.grade = grade;
                    next.bleach_dose =
                        d > 0 ? bounds.most_clearing * clearing * double(d) / double(depths) : 0;
                    const auto& closest = closeness_->closest(grade, step, next.bleach_dose);
                    next.exposure = {closest.log_h};
                    next.lightness_error = closest.rms;
                    next.cost = cost_of(next);
                    auto& least = d > 0 ? thinned : plain;
                    if (!least || next.cost < least->cost) least = next;
                }
            for (const auto& least : {plain, thinned})
                if (least) candidates.push_back(*least);
        }
    const double near = std::ranges::min(candidates, {}, &FoundRecipe::cost).cost + kNearBest;
    std::erase_if(candidates, [near](const FoundRecipe& candidate) { return candidate.cost > near; });
    for (FoundRecipe& candidate : candidates)
        refine(candidate, bounds, closeness_->clearing(step_of(easel_.pack(), candidate)));
    return std::ranges::min(candidates, {}, &FoundRecipe::cost);
}

Recipe RecipeSearch::as_recipe(const FoundRecipe& found) const {
    const Pack& pack = easel_.pack();
    Recipe recipe;
    recipe.exposures = {{found.grade, Stops{0}}};
    recipe.restrainer_ml_l = found.restrainer_ml_l;
    if (found.develop_s != pack.development.nominal_s) recipe.develop_s = found.develop_s;
    recipe.bleach = bleach_time(easel_.paper().bleach, bleach_bath(pack, recipe), found.bleach_dose);
    return recipe;
}

}  // namespace fogproof::choose
