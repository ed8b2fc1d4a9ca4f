// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/starting_point.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/stop.hpp"
#include "choose/time_doubts.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

Interval interval_about(double value, double log_deviation) {
    const double factor = std::pow(10.0, kWithin95Percent * log_deviation);
    return {value, value / factor, value * factor};
}

// The search's tables find the recipe; its exposure and error are those of the model.
StartingPoint point_of(const RecipeSearch& search, const Easel& easel, const Wanted& wanted,
                       const FoundRecipe& found) {
    StartingPoint point{found, search.as_recipe(found), {}, {}, {}, 0};
    const Seconds start = easel.starting_exposure(point.recipe, wanted);
    point.proof = easel.proof(point.recipe, start);
    point.found.exposure = exposure_of(std::log10(start.value), easel.pack().enlarger);
    point.found.lightness_error = lightness_error(wanted, easel.print(point.proof.steps).for_many_patches());
    point.found.cost += point.found.lightness_error - found.lightness_error;
    return point;
}

void spread(StartingPoint& point, const TimeDoubts::OfPoint& doubt) {
    point.exposure_s = interval_about(point.proof.exposures.front().value, doubt.exposure);
    point.bleach_s = point.proof.bleach.value > 0 ? interval_about(point.proof.bleach.value, doubt.bleach)
                                                  : Interval{0, 0, 0};
    const double noticeable = kNoticeableStops * kLogPerStop;
    point.first_sheet_good =
        doubt.exposure > 0 ? std::erf(noticeable / (doubt.exposure * std::numbers::sqrt2)) : 1.0;
}

}  // namespace

StartingPoints starting_points(const Easel& easel, const Wanted& wanted, const SearchBounds& bounds) {
    const RecipeSearch search(easel, wanted);
    SearchBounds dry = bounds;
    dry.most_clearing = 0;
    std::vector<StartingPoint> all{point_of(search, easel, wanted, search.best(bounds)),
                                   point_of(search, easel, wanted, search.best(dry))};
    for (const double grade : grades_of(easel.pack(), easel.paper())) {
        SearchBounds one = bounds;
        one.softest = one.hardest = grade;
        all.push_back(point_of(search, easel, wanted, search.best(one)));
    }
    const TimeDoubts doubts = time_doubts(easel, wanted, all);
    for (std::size_t i = 0; i < all.size(); ++i) spread(all[i], doubts.points[i]);
    return {all[0], {all.begin() + 2, all.end()}, all[1], search.tried(), doubts.target};
}

TestStrip test_strip(const Interval& exposure_s) {
    constexpr std::array kSteps{1.0 / 6, 1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 1.0};
    constexpr int kMostEachSide = 3;
    const double reach = std::log2(exposure_s.high / exposure_s.value);
    const auto* step =
        std::ranges::find_if(kSteps, [&](double stops) { return stops * kMostEachSide >= reach; });
    TestStrip strip{step == kSteps.end() ? kSteps.back() : *step, {}};
    const int side = std::clamp(int(std::ceil(reach / strip.step_stops)), 1, kMostEachSide);
    for (int i = -side; i <= side; ++i)
        strip.exposures.push_back({exposure_s.value * stops_factor(i * strip.step_stops)});
    return strip;
}

}  // namespace fogproof::choose
