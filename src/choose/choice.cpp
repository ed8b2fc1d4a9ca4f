// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/choice.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fogproof/print/print_steps.hpp"

namespace fogproof::choose {
namespace {

// Enough to tell recipes apart, which all meet the same papers. What is told of the recipe that is chosen
// comes from other papers, so that a lucky choice does not flatter itself.
constexpr std::size_t kDraws = 24, kFewDraws = 6, kTones = 24;
constexpr std::uint64_t kSet = 1;

constexpr std::size_t kTriedDepths = 8;
constexpr double kTriedGradeStep = 0.5, kTriedFinestGrade = 0.1;
constexpr double kTriedFinestDepth = 0.02;  // of the clearing dose
// Candidates of the grid this much dearer than its cheapest, in L*, are refined too.
constexpr double kNearBestExpected = 0.3;
constexpr std::size_t kMostRefined = 2;

Choice::Key key_of(const FoundRecipe& recipe) {
    return {std::lround(100 * recipe.grade), recipe.restrainer_ml_l, recipe.develop_s, recipe.bleach_dose};
}

}  // namespace

ToldRecipe as_told(const FoundRecipe& recipe, const Printing& printing) {
    const auto bath_time = [&](double dose) {
        return bleach_time(printing.paper().bleach, printing.pack().darkroom.bath, dose);
    };
    return {recipe.grade,
            recipe.restrainer_ml_l,
            recipe.develop_s,
            time_giving(recipe.exposure, printing.pack().darkroom.enlarger),
            bath_time(recipe.bleach_dose),
            recipe.bleach_dose,
            recipe.made_up_for < recipe.bleach_dose ? std::optional(bath_time(recipe.made_up_for))
                                                    : std::nullopt};
}

Choice::Choice(const Printing& printing, const Wanted& wanted)
    : printing_(printing), search_(printing, wanted), prospects_(printing, wanted, kDraws, kSet, kTones) {}

void Choice::weigh(std::vector<FoundRecipe>& recipes, Expected& expected, std::size_t draws) {
    std::vector<ToldRecipe> told;
    std::vector<Key> asked;
    for (const FoundRecipe& recipe : recipes)
        if (const Key key = key_of(recipe); expected.try_emplace(key, 0).second) {
            asked.push_back(key);
            told.push_back(as_told(recipe, printing_));
        }
    const auto prospects = prospects_.of(told, draws);
    for (std::size_t i = 0; i < asked.size(); ++i) expected[asked[i]] = rank(prospects[i]);
    for (FoundRecipe& recipe : recipes)
        recipe.cost = expected.at(key_of(recipe)) + cost_of_working(recipe, printing_.pack());
}

// By way of developing, the best with and without the bleach. No recipe is expected closer than it comes on
// the likeliest paper, or not by much: what is dearer there than the best of all is expected is left alone.
std::vector<FoundRecipe> Choice::promising(const SearchBounds& bounds) {
    std::vector<FoundRecipe> first{search_.best(bounds)};
    weigh(first);
    const auto grades = grades_within(bounds, kTriedGradeStep);
    std::vector<std::vector<FoundRecipe>> valleys;
    for (const FoundRecipe& way : ways_of_developing(bounds, printing_.pack())) {
        std::vector<FoundRecipe> plain, thinned;
        for (const double dose : search_.doses(way, bounds, kTriedDepths))
            for (const double grade : grades) {
                FoundRecipe next = way;
                next.grade = grade;
                next.bleach_dose = dose;
                search_.expose(next);
                if (next.cost < first.front().cost) (dose > 0 ? thinned : plain).push_back(next);
            }
        for (auto& valley : {plain, thinned})
            if (!valley.empty()) valleys.push_back(valley);
    }
    std::vector<FoundRecipe> all;
    for (const auto& valley : valleys) all.insert(all.end(), valley.begin(), valley.end());
    weigh(all, roughly_expected_, kFewDraws);
    std::vector<FoundRecipe> best = first;
    auto from = all.begin();
    for (const auto& valley : valleys) {
        const auto to = from + std::ptrdiff_t(valley.size());
        best.push_back(*std::ranges::min_element(from, to, {}, &FoundRecipe::cost));
        from = to;
    }
    weigh(best);
    return best;
}

// Pattern search over grade and bleach; steps halved when none helps.
void Choice::refine(FoundRecipe& best, const SearchBounds& bounds) {
    const bool bleach_is_open = best.bleach_dose > 0 && !bounds.bleach;
    const double whole = search_.unit(best), deepest = bounds.most_clearing * whole;
    double grade_step = kTriedGradeStep / 2, depth_step = bleach_is_open ? deepest / kTriedDepths / 2 : 0;
    while (true) {
        std::vector<FoundRecipe> around;
        const auto add = [&](double grade, double depth) {
            FoundRecipe next = best;
            next.grade = settable_grade(best.grade + grade, bounds);
            if (bleach_is_open)
                next.bleach_dose = std::clamp(best.bleach_dose + depth, kTriedFinestDepth * whole, deepest);
            search_.expose(next);
            around.push_back(next);
        };
        for (const double sign : {1.0, -1.0}) {
            add(sign * grade_step, 0);
            add(0, sign * depth_step);
            // More bleach wants a softer filter, as a rule: a valley that lies askew.
            add(-sign * grade_step, sign * depth_step);
        }
        weigh(around);
        const FoundRecipe& next = std::ranges::min(around, {}, &FoundRecipe::cost);
        if (next.cost < best.cost - 1e-9) {
            best = next;
            continue;
        }
        if (grade_step <= kTriedFinestGrade && depth_step <= kTriedFinestDepth * whole) return;
        grade_step = std::max(grade_step / 2, kTriedFinestGrade);
        depth_step /= 2;
    }
}

FoundRecipe Choice::best(const SearchBounds& bounds) {
    std::vector<FoundRecipe> candidates = promising(bounds);
    std::ranges::stable_sort(candidates, {}, &FoundRecipe::cost);
    const double near = candidates.front().cost + kNearBestExpected;
    std::erase_if(candidates, [near](const FoundRecipe& candidate) { return candidate.cost > near; });
    if (candidates.size() > kMostRefined) candidates.resize(kMostRefined);
    for (FoundRecipe& candidate : candidates) refine(candidate, bounds);
    FoundRecipe best = std::ranges::min(candidates, {}, &FoundRecipe::cost);
    const double cost = best.cost;
    search_.settle(best);
    best.cost = cost;
    return best;
}

}  // namespace fogproof::choose
