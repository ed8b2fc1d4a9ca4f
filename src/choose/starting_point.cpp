// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/starting_point.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/stop.hpp"
#include "choose/choice.hpp"
#include "choose/read_ways.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"
#include "print/recipe_head.hpp"

namespace fogproof::choose {
namespace {

Interval interval_about(double value, double log_deviation) {
    const double factor = std::pow(10.0, kWithin95Percent * log_deviation);
    return {value, value / factor, value * factor};
}

// The search's tables find the recipe; its exposure and error are those of the model.
StartingPoint point_of(const RecipeSearch& search, const Printing& printing, const Wanted& wanted,
                       const FoundRecipe& found, const SearchBounds& bounds,
                       const std::vector<LocalWork>& local) {
    StartingPoint point{found, search.as_recipe(found), {}, {}, {}, 0};
    if (bounds.bleach) point.recipe.bleach = *bounds.bleach;
    point.bleach_is_decided = bounds.bleach || bounds.most_clearing <= 0;
    const Seconds start = printing.starting_exposure(point.recipe, wanted);
    point.recipe.local = local;
    point.proof = printing.proof(point.recipe, start);
    point.found.exposure = exposure_of(std::log10(start.value), printing.pack().darkroom.enlarger);
    point.found.lightness_error =
        miss_of(wanted, printing.print_in_places(point.proof.steps).for_many_patches()).lightness;
    return point;
}

std::size_t place_of(double step_stops) {
    return std::size_t(std::ranges::find(kStripSteps, step_stops) - kStripSteps.begin());
}

void tell(StartingPoint& point, const Prospects::Told& told) {
    point.exposure_s = interval_about(point.proof.exposures.front().value, told.times.exposure);
    point.bleach_s = point.proof.bleach.value > 0
                         ? interval_about(point.proof.bleach.value, told.times.bleach)
                         : Interval{0, 0, 0};
    const double noticeable = kNoticeableStops * kLogPerStop;
    point.first_sheet_good =
        told.times.exposure > 0 ? std::erf(noticeable / (told.times.exposure * std::numbers::sqrt2)) : 1.0;
    point.lightness_error = told.prospect.first_sheet;
    // Whoever gains nothing by a strip prints as told.
    point.lightness_error_after_strip =
        std::min(told.prospect.after_strip[place_of(test_strip(point.exposure_s).step_stops)],
                 point.lightness_error.value);
}

// As costly as each is on papers that took no part in choosing.
std::vector<double> tell_all(std::vector<StartingPoint>& points, const Printing& printing,
                             Prospects& prospects) {
    std::vector<ToldRecipe> recipes;
    std::vector<std::optional<double>> shares;
    for (const StartingPoint& point : points) {
        recipes.push_back(as_told(point.found, printing));
        const auto percent = point.proof.clearing_percent;
        shares.push_back(percent ? std::optional(*percent / 100) : std::nullopt);
    }
    const auto told = prospects.told(recipes, shares);
    std::vector<double> costs;
    for (std::size_t i = 0; i < points.size(); ++i) {
        tell(points[i], told[i]);
        costs.push_back(rank(told[i].prospect) + cost_of_working(points[i].found, printing.pack()));
    }
    return costs;
}

// The cheapest with a filter and baths that were read together.
std::optional<FoundRecipe> best_as_read(Choice& choice, const Pack& pack, const SearchBounds& bounds) {
    std::optional<FoundRecipe> best;
    // A bleach in percent of clearing is nothing where a bath leaves no fog to clear.
    const auto takes_bleach = [&](const SearchBounds& one) {
        return std::ranges::any_of(ways_of_developing(one, pack), [&](const FoundRecipe& way) {
            return !choice.search().doses(way, one, 1).empty();
        });
    };
    for (const SearchBounds& one : ReadWays(pack).within(bounds))
        if (!takes_bleach(one)) {
            continue;
        } else if (const FoundRecipe next = choice.best(one); !best || next.cost < best->cost)
            best = next;
    return best;
}

StartingPoints points_of(const Printing& printing, const Wanted& wanted, const SearchBounds& bounds,
                         const std::vector<LocalWork>& local) {
    Choice choice(printing, wanted);
    std::vector<FoundRecipe> found{choice.best(bounds)};
    for (const double grade : grades_of(printing.pack(), printing.paper())) {
        if (grade < bounds.softest || grade > bounds.hardest) continue;
        SearchBounds one = bounds;
        one.softest = one.hardest = grade;
        found.push_back(choice.best(one));
    }
    if (!bounds.bleach) {
        SearchBounds dry = bounds;
        dry.most_clearing = 0;
        found.push_back(choice.best(dry));
    }
    // A search of one grade may come upon what the search of all went past.
    found.front() = std::ranges::min(found, {}, &FoundRecipe::cost);
    const auto as_read = best_as_read(choice, printing.pack(), bounds);
    if (as_read) found.push_back(*as_read);
    std::vector<StartingPoint> points;
    for (const FoundRecipe& each : found)
        points.push_back(point_of(choice.search(), printing, wanted, each, bounds, local));
    Prospects prospects(printing, wanted, kToldDraws, kToldSet);
    const std::vector<double> costs = tell_all(points, printing, prospects);
    // What was chosen among many is the luckiest of them, most of all where nobody read anything. On other
    // papers it may fall behind the best at another grade, or the best that was read together.
    points.front() = points[std::size_t(std::ranges::min_element(costs) - costs.begin())];
    if (as_read) points.pop_back();

    StartingPoints all{points.front(), {}, std::nullopt, choice.tried(), prospects.target()};
    all.measure_next =
        measure_next(printing, prospects, as_told(all.best.found, printing), all.best.lightness_error.value);
    if (!bounds.bleach) {
        all.unbleached = points.back();
        points.pop_back();
    }
    all.by_grade.assign(points.begin() + 1, points.end());
    const auto after_strip = [](const StartingPoint& point) { return point.lightness_error_after_strip; };
    const auto& safest = std::ranges::min(points, {}, after_strip);
    if (after_strip(safest) < after_strip(all.best) - kWorthAStrip) all.after_strip = safest;
    return all;
}

}  // namespace

StartingPoints starting_points(const Printing& printing, const Wanted& wanted, const SearchBounds& bounds) {
    return points_of(printing, printing.in_places(wanted, {}), bounds, {});
}

StartingPoints starting_points(const Printing& printing, const Wanted& wanted, const SearchBounds& bounds,
                               const std::vector<LocalWork>& local) {
    if (local.empty()) return starting_points(printing, wanted, bounds);
    Recipe worked;
    Seconds exposure{1};
    if (std::ranges::any_of(local, [](const LocalWork& work) {
            return work.kind != LocalWork::Kind::bleach && !std::holds_alternative<Stops>(work.amount);
        })) {
        const RecipeSearch search(printing, wanted);
        worked = search.as_recipe(search.best(bounds));
        exposure = printing.starting_exposure(worked, wanted);
    }
    worked.local = local;
    const PrintSteps steps = print_steps(printing.pack(), printing.paper(), worked, exposure);
    return points_of(printing, printing.in_places(wanted, steps), bounds, local);
}

Recipe written_out(const StartingPoint& point, const Printing& printing) {
    Recipe recipe = point.recipe;
    const Seconds start = point.proof.exposures.front();
    recipe.develop_s = point.proof.steps.develop.time_s;
    recipe.bleach = point.proof.bleach;
    recipe.bleach_parts = bleach_bath(printing.pack(), recipe).parts;
    auto& amount = recipe.exposures.front().amount;
    if (printing.pack().darkroom.anchored)
        amount = start;
    else
        amount = Stops{std::log2(start.value / printing.starting_exposure(recipe, printing.fresh()).value)};
    return with_head_of(printing.pack(), std::move(recipe));
}

bool strip_pays(const StartingPoint& point) {
    return point.lightness_error_after_strip < point.lightness_error.value - kWorthAStrip;
}

TestStrip test_strip(const Interval& exposure_s) {
    const double reach = std::log2(exposure_s.high / exposure_s.value);
    const auto* step =
        std::ranges::find_if(kStripSteps, [&](double stops) { return stops * kBandsEachSide >= reach; });
    TestStrip strip{step == kStripSteps.end() ? kStripSteps.back() : *step, {}};
    for (int i = -kBandsEachSide; i <= kBandsEachSide; ++i)
        strip.exposures.push_back({exposure_s.value * stops_factor(i * strip.step_stops)});
    return strip;
}

}  // namespace fogproof::choose
