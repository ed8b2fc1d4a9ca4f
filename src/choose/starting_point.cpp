// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/choose/starting_point.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <numbers>

#include "fogproof/pack/grades.hpp"
#include "fogproof/pack/uncertainty.hpp"
#include "fogproof/print/clearing.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/response.hpp"

namespace fogproof {
namespace {

// log10 exposure closest to what is wanted on one state of the paper, near a first guess.
double closest_exposure(const Response& response, const Wanted& wanted, const std::vector<double>& log_light,
                        double guess) {
    constexpr double kReach = 0.8;
    const auto [dimmest, brightest] = std::ranges::minmax(log_light);
    const MonotoneCurve lightness =
        response.lightness_between({guess - kReach + dimmest}, {guess + kReach + brightest});
    const auto error = [&](double log_h) {
        double sum = 0;
        for (std::size_t i = 0; i < wanted.tones.size(); ++i)
            sum += wanted.tones[i].share * std::pow(lightness(log_h + log_light[i]) - wanted.lightness[i], 2);
        return sum;
    };
    return boost::math::tools::brent_find_minima(error, guess - kReach, guess + kReach, 14).first;
}

// log10 of the exposure and of the bleach time that a pack wants, for the same share of its clearing dose.
std::vector<double> wanted_times(const Pack& pack, const Easel& easel, const Wanted& wanted,
                                 const StartingPoint& point) {
    const PaperModel paper = paper_model(pack);
    Recipe recipe = point.recipe;
    recipe.bleach = Seconds{0};
    PrintSteps steps = print_steps(pack, paper, recipe, Seconds{1});
    steps.exposures.front().time = {1};
    const double share = point.proof.clearing_percent.value_or(0) / 100;
    steps.bleach_dose = share * clearing_dose(paper, steps.develop).value_or(0);

    const double mean = easel.frame().mean_transmitted(pack.enlarger.callier);
    std::vector<double> log_light;
    for (const Tone& tone : wanted.tones)
        log_light.push_back(std::log10(transmitted(tone.density, mean, pack.enlarger)));
    const double log_h = closest_exposure(Response(paper, pack.enlarger, steps), wanted, log_light,
                                          point.found.exposure.value);
    const double bleach = bleach_time(paper.bleach, bleach_bath(pack, recipe), steps.bleach_dose).value;
    return {std::log10(time_giving({log_h}, pack.enlarger).value), std::log10(std::max(bleach, 1e-3))};
}

Interval interval_about(double value, double log_deviation) {
    const double factor = std::pow(10.0, kWithin95Percent * log_deviation);
    return {value, value / factor, value * factor};
}

StartingPoint point_of(const RecipeSearch& search, const Easel& easel, const Wanted& wanted,
                       const FoundRecipe& found) {
    StartingPoint point{found, search.as_recipe(found), {}, {}, {}, 0};
    point.proof = easel.proof(point.recipe, Seconds{1});
    const auto deviation =
        deviations([&](const Pack& pack) { return wanted_times(pack, easel, wanted, point); }, easel.pack());
    point.exposure_s = interval_about(point.proof.exposures.front().value, deviation[0]);
    point.bleach_s = point.proof.bleach.value > 0 ? interval_about(point.proof.bleach.value, deviation[1])
                                                  : Interval{0, 0, 0};
    const double noticeable = kNoticeableStops * std::log10(2.0);
    point.first_sheet_good =
        deviation[0] > 0 ? std::erf(noticeable / (deviation[0] * std::numbers::sqrt2)) : 1.0;
    return point;
}

}  // namespace

StartingPoints starting_points(const Easel& easel, const Wanted& wanted, const SearchBounds& bounds) {
    const RecipeSearch search(easel, wanted);
    SearchBounds dry = bounds;
    dry.most_clearing = 0;
    StartingPoints points{point_of(search, easel, wanted, search.best(bounds)),
                          {},
                          point_of(search, easel, wanted, search.best(dry)),
                          0};
    for (const double grade : grades_of(easel.pack(), easel.paper())) {
        SearchBounds one = bounds;
        one.softest = one.hardest = grade;
        points.by_grade.push_back(point_of(search, easel, wanted, search.best(one)));
    }
    points.tried = search.tried();
    return points;
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

}  // namespace fogproof
