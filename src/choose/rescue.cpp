// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/rescue.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>

#include "choose/drawn_paper.hpp"
#include "choose/starting_point.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/draws.hpp"
#include "system/threads.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kRescuedTones = 40;

Recipe redeveloped(Recipe recipe, Seconds bleached, double seconds) {
    recipe.bleach = bleached;
    recipe.redevelop_s = seconds;
    recipe.toner = Toner::none;
    return recipe;
}

// Seconds of redevelopment that bring it closest; none where less than half a second is best.
double closest_redevelopment(const auto& off) {
    const double best = boost::math::tools::brent_find_minima(off, 0.0, kLongestRescue, 12).first;
    return best < 0.5 ? 0 : best;
}

Wanted wanted_of_rescued(const Printing& drawn, Wanted wanted) {
    if (!wanted.fresh) return wanted;
    const PrintModel fresh = drawn.fresh_print().for_many_patches();
    for (std::size_t i = 0; i < wanted.tones.size(); ++i)
        wanted.lightness[i] = fresh.patch(wanted.tones[i].density).lab.l;
    wanted.white = drawn.target().white_lightness;
    return wanted;
}

// A paper on which no filter is as soft or as hard is printed through the nearest that there is.
Pack with_grade(Pack pack, double grade) {
    const PaperModel paper = paper_model(pack);
    const FilterSet filters(pack, paper);
    if (pack.contrast == Contrast::graded || filters.has(grade)) return pack;
    const Filter nearest = filters.nearest(grade);
    pack.filters = {{grade, std::log10(nearest.green / nearest.blue), pack.filter_set.speed(grade)}};
    return pack;
}

// Fresh paper as the print is held against: of the same grade, unless that is whatever the graded paper has.
std::optional<double> fresh_grade_of(const Printing& printing) {
    const FreshTarget& target = printing.target();
    if (printing.pack().contrast == Contrast::graded && !target.is_asked) return std::nullopt;
    return target.grade;
}

// The same print on another paper that the pack may be, exposed for it as the printer's strip told.
double rescued_on(const Pack& drawn_pack, const Printing& printing, const Proof& made, Seconds bleached,
                  const Wanted& few, double longer) {
    const Pack pack = with_grade(drawn_pack, made.recipe.exposures.front().grade.value_or(kUnfilteredGrade));
    const Printing drawn(pack, printing.frame(), fresh_grade_of(printing));
    const Wanted wanted = wanted_of_rescued(drawn, few);
    Recipe recipe = made.recipe;
    recipe.local.clear();
    if (pack.contrast == Contrast::graded) recipe.exposures.front().grade = std::nullopt;
    const Seconds start = longer * drawn.starting_exposure(recipe, wanted);
    const std::vector<Seconds> times = drawn.proof(recipe, start).exposures;
    return closest_redevelopment([&](double seconds) {
        const PrintSteps steps =
            timed_steps(pack, drawn.paper(), redeveloped(recipe, bleached, seconds), times);
        return miss_of(wanted, drawn.print(steps)).lightness;
    });
}

}  // namespace

Rescue rescue(const Printing& printing, const Proof& made, Seconds bleached, const Wanted& wanted) {
    const auto step = [&](double seconds) {
        // What stands on the paper was exposed already, whatever comes after.
        const Proof proof = printing.timed_proof(redeveloped(made.recipe, bleached, seconds), made.exposures);
        return RescueStep{{seconds},
                          proof,
                          printing.print(proof.steps).border().density,
                          miss_of(printing.in_places(wanted, proof.steps),
                                  printing.print_in_places(proof.steps).for_many_patches())
                              .lightness};
    };
    Rescue rescue;
    for (const double seconds : {0.0, 5.0, 10.0, 20.0, 40.0, 80.0, 160.0})
        rescue.steps.push_back(step(seconds));
    rescue.best = step(closest_redevelopment([&](double seconds) { return step(seconds).off; }));

    const auto draws = draws_of(printing.pack(), kToldDraws, kToldSet);
    const Wanted few = gathered(wanted, kRescuedTones);
    // Than the start: on every paper alike.
    Recipe whole = made.recipe;
    whole.local.clear();
    const double longer = made.exposures.front().value / printing.starting_exposure(whole, few).value;
    std::vector<double> times(draws.size());
    in_parallel(draws.size(), [&](std::size_t i) {
        times[i] = rescued_on(draws[i].pack, printing, made, bleached, few, longer);
    });
    std::ranges::sort(times);
    const std::size_t outside = std::size_t(0.025 * double(times.size()));
    const double told = rescue.best.redevelop.value;
    rescue.redevelop_s = {told, std::min(told, times[outside]),
                          std::max(told, times[times.size() - 1 - outside])};
    return rescue;
}

}  // namespace fogproof::choose
